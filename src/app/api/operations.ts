/**
 * Every operation of /api/v1, in the order of the document that describes them. What is not here is no operation: a test
 * holds the routes to this list.
 */
import type { Described, Operation } from './operation.ts';
import { listAgreements, readOneAgreement, recordOneAgreement } from './operations/agreement-operations.ts';
import {
  changeOneLot,
  counterOneOffer,
  draftOneLot,
  endOneOffer,
  listLots,
  listOffers,
  makeOneOffer,
  postOneLot,
  proposeOneAmendment,
  proposeOneClosing,
  readOneLot,
  readOneOffer,
  withdrawOneLot,
} from './operations/bargain-operations.ts';
import { readInvoice, readOneFile, readTicketPaper, recordOneFile } from './operations/file-operations.ts';
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
  contestOneQuote,
  correctOneQuote,
  listQuotes,
  recordSomeElections,
  recordSomeQuotes,
  setTermsOfSeries,
} from './operations/price-operations.ts';
import {
  attachOneReport,
  confirmOneResult,
  contestOneResult,
  correctOneResult,
  listLaboratoryWork,
  listResults,
  recordSomeResults,
  reportSomeResults,
} from './operations/result-operations.ts';
import {
  handOnePartOver,
  listSamples,
  sealSomeParts,
  takeOneSample,
} from './operations/sample-operations.ts';
import {
  beginSeries,
  changeOneScale,
  describeScale,
  listScales,
  listTrucks,
  listWeighings,
  readBook,
  spendOneTicket,
  weighOneIn,
  weighOneOut,
} from './operations/scale-house-operations.ts';
import {
  answerOneAllowance,
  answerOneCorrection,
  listAllowances,
  listCorrections,
  listSettlements,
  proposeOneAllowance,
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
  {
    name: 'Scale house',
    operations: [
      ...[listWeighings, weighOneIn, weighOneOut, readBook, spendOneTicket],
      ...[beginSeries, listTrucks, listScales, describeScale, changeOneScale],
      ...[recordOneFile, readOneFile, readTicketPaper],
    ],
  },
  { name: 'Samples', operations: [listSamples, takeOneSample, sealSomeParts, handOnePartOver] },
  {
    name: 'Results',
    operations: [
      ...[listResults, recordSomeResults, correctOneResult, confirmOneResult, contestOneResult],
      ...[attachOneReport, listLaboratoryWork, reportSomeResults],
    ],
  },
  {
    name: 'Prices',
    operations: [
      ...[listQuotes, recordSomeQuotes, correctOneQuote, contestOneQuote],
      ...[setTermsOfSeries, recordSomeElections],
    ],
  },
  {
    name: 'Settlements',
    operations: [
      ...[recordSomeChoices, listAllowances, proposeOneAllowance, answerOneAllowance],
      ...[listSettlements, settleSomeLoads, readInvoice],
      ...[listCorrections, proposeOneCorrection, answerOneCorrection],
    ],
  },
  {
    name: 'Feed for sale and offers',
    operations: [
      ...[listLots, readOneLot, draftOneLot, changeOneLot, postOneLot, withdrawOneLot],
      ...[listOffers, readOneOffer, makeOneOffer, counterOneOffer, endOneOffer],
      ...[proposeOneAmendment, proposeOneClosing],
    ],
  },
];

export const OPERATIONS: readonly Described[] = GROUPS.flatMap(({ operations }) => operations);
