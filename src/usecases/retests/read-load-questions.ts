/**
 * The questions about a load: of its weight, and of its sample's figures.
 */
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { questionedName } from '../../domain/words/retest-course-words.ts';
import { findAgreement, sideOf } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { readCases } from './retest-frame.ts';

export interface LoadQuestion {
  readonly id: string;
  /** "Starch", "Net weight". */
  readonly name: string;
  readonly isWeight: boolean;
  readonly askedOn: LocalDate;
  /** The figure that counts since it ended; undefined while it is open. */
  readonly value: string | undefined;
  /** It ended with another figure than the first. */
  readonly isMoved: boolean;
}

/** The first asked first; none for an adviser. Refuses `not-allowed`, `not-found`. */
export async function readLoadQuestions(
  context: Context,
  of: { readonly agreementId: string; readonly loadId: string; readonly sample: string | undefined },
): Promise<readonly LoadQuestion[]> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findAgreement(tx, of.agreementId);
    if (sideOf(found.row, context.caller) === 'adviser') return [];
    return (await readCases(tx, found)).flatMap(({ id, about, row, askedOn, ending }): LoadQuestion[] => {
      const isAbout = row.sample === null ? row.fact.load === of.loadId : row.sample === of.sample;
      if (!isAbout) return [];
      const value = ending?.fact.value;
      return [
        {
          ...{ id, askedOn, value },
          name: questionedName(about),
          isWeight: about === 'weight',
          isMoved: value !== undefined && value !== row.fact.first,
        },
      ];
    });
  });
}
