/**
 * Every operation of /api/v1, in the order of the document that describes them. What is not here is no operation: a test
 * holds the routes to this list.
 */
import type { Described, Operation } from './operation.ts';
import { listAgreements, readOneAgreement, recordOneAgreement } from './operations/agreement-operations.ts';
import {
  correctOneLoad,
  listLoads,
  listWaiting,
  readOneLoad,
  readOneTicket,
  recordSomeLoads,
  voidOneLoad,
} from './operations/load-operations.ts';
import {
  correctOneQuote,
  listQuotes,
  recordSomeElections,
  recordSomeQuotes,
} from './operations/price-operations.ts';
import { correctOneResult, listResults, recordSomeResults } from './operations/result-operations.ts';
import {
  answerOneCorrection,
  listCorrections,
  listSettlements,
  proposeOneCorrection,
  recordSomeChoices,
  settleSomeLoads,
} from './operations/settlement-operations.ts';

export interface Group {
  readonly name: string;
  readonly operations: readonly Operation[];
}

export const GROUPS: readonly Group[] = [
  { name: 'Agreements', operations: [listAgreements, readOneAgreement, recordOneAgreement] },
  {
    name: 'Loads',
    operations: [
      ...[listLoads, readOneLoad, readOneTicket, listWaiting],
      ...[recordSomeLoads, correctOneLoad, voidOneLoad],
    ],
  },
  { name: 'Results', operations: [listResults, recordSomeResults, correctOneResult] },
  { name: 'Prices', operations: [listQuotes, recordSomeQuotes, correctOneQuote, recordSomeElections] },
  {
    name: 'Settlements',
    operations: [
      ...[recordSomeChoices, listSettlements, settleSomeLoads],
      ...[listCorrections, proposeOneCorrection, answerOneCorrection],
    ],
  },
];

export const OPERATIONS: readonly Described[] = GROUPS.flatMap(({ operations }) => operations);
