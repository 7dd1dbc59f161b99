/**
 * What is to be known of a result beside its figures: who entered it, what the other side says of it, which report is
 * attached, and what the caller may do about it.
 */
import { TESTED, type Tested } from '../../domain/agreement/measures.ts';
import { mayDo } from '../../domain/parties/permissions.ts';
import { toxinBreaches, toxinCautions } from '../../domain/samples/toxins.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type ResultAnswerRow, readResultAnswers } from '../../store/rows/result-answer-rows.ts';
import { type ResultRow, readResultVersions, readSampleNames } from '../../store/rows/result-rows.ts';
import { readSettledSamples } from '../../store/rows/sample-load-rows.ts';
import { type FoundAgreement, findAgreement, sideOf } from '../agreements/find-agreement.ts';
import { type Caller, type Context, permit } from '../context.ts';
import { labResult } from './result-fact.ts';
import { newestWords, unusableResults } from './unusable-results.ts';

export interface ResultStory {
  readonly id: string;
  readonly sample: string;
  readonly version: number;
  /** Why it corrects the version before. */
  readonly reason: string | null;
  /** A side of the agreement or a laboratory that was let in; null where it was not asked then. */
  readonly enteredBy: {
    readonly name: string;
    readonly isOurs: boolean;
    readonly isLaboratory: boolean;
  } | null;
  readonly laboratory: string | null;
  readonly method: string | null;
  readonly dryMatterMethod: string | null;
  readonly reportedOn: string | null;
  readonly basis: string;
  /** As the laboratory gave them. */
  readonly figures: readonly { readonly measure: Tested; readonly figure: string }[];
  /** SHA-256 of the report that is attached. */
  readonly report: string | null;
  /** The newest word of each side about these figures. */
  readonly answers: readonly AnswerView[];
  /** Why it does not count for now, in a sentence. */
  readonly unusable: string | null;
  /** Published levels that it passes, each with what that means for whoever feeds it. */
  readonly breaches: readonly string[];
  readonly cautions: readonly string[];
  /** A load has settled from it: it is put right by both sides alone. */
  readonly isSettled: boolean;
  readonly mayConfirm: boolean;
  readonly mayContest: boolean;
  readonly mayAttach: boolean;
}

export interface AnswerView {
  readonly name: string;
  readonly isOurs: boolean;
  readonly answer: ResultAnswerRow['answer'];
  readonly reason: string | null;
}

/** By sample: of all, or of some of these names. Refuses `not-allowed`, `not-found`. */
export async function readResultStories(
  context: Context,
  { agreementId, samples }: { readonly agreementId: string; readonly samples?: readonly string[] },
): Promise<ReadonlyMap<string, ResultStory>> {
  permit(context, 'read');
  const { caller } = context;
  const { terms, rows, answers, unusable, settled } = await context.store.forParty(
    caller.partyId,
    async (tx) => {
      const terms = await findAgreement(tx, agreementId);
      const names = samples ?? (await readSampleNames(tx, agreementId));
      const versions = await readResultVersions(tx, agreementId, names);
      const answers = await readResultAnswers(tx, agreementId);
      // Versions come oldest first, so the last of a sample is what stands.
      const newest = new Map(versions.map((row) => [row.sample, row]));
      return {
        terms,
        rows: [...newest.values()],
        answers: new Map(
          [...newest.values()].map((row) => [row.id, newestWords(row, { versions, answers })]),
        ),
        unusable: unusableResults({ terms, versions, answers }),
        settled: await readSettledSamples(tx, agreementId),
      };
    },
  );
  const names = await readNames(context, { terms, ids: rows.flatMap(({ enteredBy }) => enteredBy ?? []) });
  return new Map(
    rows.map((row) => [
      row.sample,
      storyOf(row, {
        ...{ terms, caller, names },
        answers: answers.get(row.id) ?? [],
        unusable: unusable.get(row.sample) ?? null,
        isSettled: settled.has(row.sampleId),
      }),
    ]),
  );
}

interface Setting {
  readonly terms: FoundAgreement;
  readonly caller: Caller;
  readonly names: ReadonlyMap<string, string>;
  readonly answers: readonly ResultAnswerRow[];
  readonly unusable: string | null;
  readonly isSettled: boolean;
}

function storyOf(row: ResultRow, setting: Setting): ResultStory {
  const { terms, caller, names, answers, unusable, isSettled } = setting;
  const { sellerId, buyerId } = terms.row;
  const { enteredBy, figures } = row;
  const result = labResult(row);
  const isSide = sideOf(terms.row, caller) !== 'adviser';
  const mayWrite = isSide && mayDo(caller.role, 'record-result');
  const own = answers.find(({ partyId }) => partyId === caller.partyId);
  const mayAnswer = mayWrite && enteredBy !== caller.partyId;
  const { id, sample, version, reason, laboratory, method, dryMatterMethod, reportedOn, basis, report } = row;
  return {
    ...{ id, sample, version, reason, laboratory, method, dryMatterMethod, reportedOn, basis, report },
    ...{ unusable, isSettled },
    enteredBy:
      enteredBy === null
        ? null
        : {
            name: names.get(enteredBy) ?? 'somebody who was let in',
            isOurs: enteredBy === caller.partyId,
            isLaboratory: enteredBy !== sellerId && enteredBy !== buyerId,
          },
    figures: TESTED.flatMap((measure) => {
      const figure = figures[measure];
      return figure === null ? [] : [{ measure, figure }];
    }),
    answers: answers.map(({ partyId, answer, reason: why }) => ({
      name: names.get(partyId) ?? '',
      isOurs: partyId === caller.partyId,
      answer,
      reason: why,
    })),
    breaches: toxinBreaches(result),
    cautions: toxinCautions(result),
    mayConfirm: mayAnswer && own?.answer !== 'confirm',
    mayContest: mayAnswer && !isSettled,
    mayAttach: mayWrite,
  };
}

/** Both sides, and the laboratories among the ids: those are no partners, so their names are read at the door. */
async function readNames(
  { store }: Pick<Context, 'store'>,
  { terms, ids }: { readonly terms: FoundAgreement; readonly ids: readonly string[] },
): Promise<ReadonlyMap<string, string>> {
  const { sellerId, sellerName, buyerId, buyerName } = terms.row;
  const sides: readonly (readonly [string, string])[] = [
    [sellerId, sellerName],
    [buyerId, buyerName],
  ];
  const others = [...new Set(ids)].filter((id) => id !== sellerId && id !== buyerId);
  if (others.length === 0) return new Map(sides);
  const read = async (tx: Transaction) =>
    await tx.party.findMany({ where: { id: { in: others } }, select: { id: true, name: true } });
  const laboratories = await store.atDoor(read);
  return new Map([...sides, ...laboratories.map(({ id, name }) => [id, name] as const)]);
}
