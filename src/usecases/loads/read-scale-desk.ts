/**
 * What a scale page needs to know beforehand, since it must work with no signal: the agreements that take loads.
 */
import { readerUnits } from '../../domain/agreement/reader-units.ts';
import { standingByVersions, type TestStanding } from '../../domain/scales/test-standing.ts';
import { needsDistance } from '../../domain/settlement/prepare-term.ts';
import { readAgreements } from '../../store/rows/agreement-rows.ts';
import { readClosing } from '../../store/rows/signing-rows.ts';
import { readWeighings } from '../../store/rows/weighing-rows.ts';
import { sideOf, withVersions } from '../agreements/find-agreement.ts';
import { needsTests } from '../agreements/read-agreement-words.ts';
import { type Context, permit } from '../context.ts';
import { partyName } from '../people/party-name.ts';
import { findScales } from '../scales/scale-view.ts';
import { todayOf } from '../scales/today.ts';
import { nextTicketOf } from './read-ticket-book.ts';
import { trucksOf } from './read-trucks.ts';

/** Refuses `not-allowed`. */
export async function readScaleDesk(context: Context) {
  permit(context, 'record-load');
  const { partyId } = context.caller;
  return await context.store.forParty(partyId, async (tx) => {
    const agreements = [];
    for (const row of await readAgreements(tx)) {
      const side = sideOf(row, context.caller);
      if (side === 'adviser' || row.isSealed || (await readClosing(tx, row.id))) continue;
      const found = await withVersions(tx, row);
      const { agreement } = found;
      const distanceTerm = agreement.price.find(needsDistance);
      agreements.push({
        id: row.id,
        number: row.number,
        partner: side === 'seller' ? row.buyerName : row.sellerName,
        timeZone: agreement.timeZone,
        unit: readerUnits(agreement).weight,
        testsNeeded: needsTests(agreement),
        sampling: agreement.sampling?.plan ?? ('per-load' as const),
        distance: distanceTerm ? distanceUnit(distanceTerm) : null,
        nextTicket: await nextTicketOf(tx, row.id),
        trucks: await trucksOf(tx, found),
        open: (await readWeighings(tx, row.id)).filter(({ isOpen }) => isOpen),
      });
    }
    const scales = [...(await findScales(tx)).values()].map(({ id, name, unit, versions }) => {
      return { id, name, unit, doubt: testDoubt(standingByVersions(versions, todayOf(context))) };
    });
    return { party: await partyName(tx, partyId), partyId, agreements, scales };
  });
}

/** In few words, since it stands behind the scale's name where one is chosen. */
function testDoubt(standing: TestStanding): string | null {
  if (standing.is === 'never-tested') return 'no test recorded';
  return standing.is === 'overdue' ? `its test was due by ${standing.dueOn}` : null;
}

function distanceUnit(term: object): 'miles' | 'km' {
  return 'per' in term && term.per === 'km' ? 'km' : 'miles';
}
