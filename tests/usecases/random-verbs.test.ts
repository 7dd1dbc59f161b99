/**
 * Random sequences of verbs, by both parties, some at once, some twice: the record stays what a small model of it in
 * memory says. A failing seed is in the message.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { decimal, type Exact } from '../../src/domain/numbers/exact.ts';
import { printFixed } from '../../src/domain/numbers/printing.ts';
import { RunningSum } from '../../src/domain/numbers/running-sum.ts';
import { readBalances } from '../../src/store/rows/journal-rows.ts';
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Context } from '../../src/usecases/context.ts';
import { readLoadList } from '../../src/usecases/loads/read-load-list.ts';
import { recordChoices } from '../../src/usecases/loads/record-choices.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { recordQuotes } from '../../src/usecases/prices/record-quotes.ts';
import { Refusal } from '../../src/usecases/refusal.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { chanceFrom } from '../oracle/random.ts';
import { prepareProduct } from '../oracle/settle-by-product.ts';
import { workedExample } from '../oracle/worked-example.ts';
import { newParty, openTestRecord, SERVER, type TestRecord } from '../store/test-record.ts';

const SERIES = 'corn-elevator-bid';
const TICKETS = 8;
const VERBS = 40;
/** The embedded engine takes its time: a server is asked for more. */
const SEQUENCES = SERVER === undefined ? 4 : 12;

type Cells = Record<string, string>;

/** What was recorded, and what became of each load. */
class Model {
  readonly loads = new Map<string, Cells>();
  readonly results = new Map<string, Cells>();
  readonly quotes = new Map<string, string>();
  readonly choices = new Map<string, string>();
  readonly settled = new Map<string, string>();

  /** Settles all that is ready by what stands in the model, as files are settled. */
  settle(): void {
    const product = prepareProduct({
      ...workedExample,
      loads: [...this.loads.values()] as never,
      samples: [...this.results.values()] as never,
      prices: [...this.quotes].map(([date, price]) => ({ series: SERIES, date, price })),
      elections: [],
      choices: [...this.choices].map(([ticket, choice]) => ({ ticket, choice })) as never,
    });
    for (const [ticket, load] of this.loads) {
      if (this.settled.has(ticket)) continue;
      const outcome = product.settle(load);
      if (outcome.status === 'refused') this.settled.set(ticket, 'refused');
      if (outcome.status === 'settled') this.settled.set(ticket, String(product.print(outcome)['total']));
    }
  }

  owed(): string {
    const sum = new RunningSum();
    for (const total of this.settled.values()) if (total !== 'refused') sum.add(decimal(total));
    const owed: Exact = sum.value();
    return printFixed(owed, 2);
  }
}

let record: TestRecord;
let seller: Context;
let buyer: Context;

beforeAll(async () => {
  record = await openTestRecord();
  seller = { ...record.tools, caller: await newParty(record.tools, 'Quillback Acres') };
  buyer = { ...record.tools, caller: await newParty(record.tools, 'Tarn Hollow Dairy') };
});
afterAll(() => record.close());

test(`${SEQUENCES} sequences of ${VERBS} verbs`, async () => {
  let settled = 0;
  let refusals = 0;
  for (let seed = 1; seed <= SEQUENCES; seed++) {
    const chance = chanceFrom(seed);
    const model = new Model();
    const document = { ...workedExample.agreement, id: `R-${seed}` };
    const parties = { sellerId: seller.caller.partyId, buyerId: buyer.caller.partyId };
    const { agreementId } = await recordAgreement(seller, { document, ...parties });
    for (let verb = 0; verb < VERBS; verb++) {
      const context = chance.pick([seller, buyer]);
      const twice = chance.happens(0.2) ? { key: `${seed}-${verb}` } : {};
      const work = draw();
      // The same again at the same time changes nothing; with a key it is even answered alike.
      const answers = await Promise.allSettled(
        chance.happens(0.25)
          ? [work.run(context, twice), work.run(context, twice)]
          : [work.run(context, twice)],
      );
      for (const answer of answers) {
        if (answer.status === 'rejected' && !(answer.reason instanceof Refusal)) throw answer.reason;
        if (answer.status === 'rejected') refusals++;
      }
      const refused = answers.every(({ status }) => status === 'rejected');
      expect(refused, `seed ${seed}, verb ${verb}`).toBe(work.refusedBy(context));
      if (!refused) work.remember();
    }
    const { loads } = await readLoadList(buyer, { agreementId, status: 'all', locale: 'en-US' });
    const found = loads.map(({ ticket, standing }) => {
      if (standing.status === 'settled') return [ticket, standing.total.replaceAll(',', '')];
      return [ticket, standing.status === 'refused' && model.settled.has(ticket) ? 'refused' : undefined];
    });
    const expected = [...model.loads.keys()].map((ticket) => [ticket, model.settled.get(ticket)]);
    expect(found.sort(), `seed ${seed}`).toEqual(expected.sort());
    const balances = await record.store.forParty(seller.caller.partyId, readBalances);
    const owed = balances.find(
      (row) => row.agreementId === agreementId && row.account === 'buyer-owes-seller',
    );
    expect(printFixed(decimal(owed?.balance ?? '0'), 2), `seed ${seed}`).toBe(model.owed());
    settled += model.settled.size;

    function draw() {
      const ticket = `T${chance.integer(1, TICKETS)}`;
      const day = String(chance.integer(10, 20));
      switch (chance.pick(['load', 'result', 'quote', 'choice', 'settle'] as const)) {
        case 'load': {
          const load = {
            ticket,
            delivered_at: `2026-09-${day}T21:40:00-06:00`,
            gross: String(70_000 + chance.integer(0, 2) * 20),
            tare: '31000',
            unit: 'lb',
            sample: `S${chance.integer(1, 3)}`,
          };
          const before = model.loads.get(ticket);
          return {
            run: (context: Context, key: object) =>
              recordLoads(context, { agreementId, loads: [load], ...key }),
            refusedBy: () => before !== undefined && JSON.stringify(before) !== JSON.stringify(load),
            remember: () => model.loads.set(ticket, load),
          };
        }
        case 'result': {
          const sample = `S${chance.integer(1, 3)}`;
          const dry_matter = chance.pick(['59.2', '59.2', '71.5']);
          const result = { sample, basis: 'dry-matter', dry_matter, starch: '54', ndf: '31.34' };
          const before = model.results.get(sample);
          return {
            run: (context: Context, key: object) =>
              recordResults(context, { agreementId, results: [result], ...key }),
            refusedBy: () => before !== undefined && before['dry_matter'] !== dry_matter,
            remember: () => model.results.set(sample, result),
          };
        }
        case 'quote': {
          const date = `2026-09-${day}`;
          const price = chance.pick(['4.20', '4.31']);
          const before = model.quotes.get(date);
          return {
            run: (context: Context, key: object) =>
              recordQuotes(context, { agreementId, quotes: [{ series: SERIES, date, price }], ...key }),
            refusedBy: () => before !== undefined && before !== price,
            remember: () => model.quotes.set(date, price),
          };
        }
        case 'choice': {
          const choice = chance.pick(['accept', 'refuse']);
          const before = model.choices.get(ticket);
          const known = model.loads.has(ticket);
          return {
            run: (context: Context, key: object) =>
              recordChoices(context, { agreementId, choices: [{ ticket, choice }], ...key }),
            refusedBy: (context: Context) =>
              context === seller || !known || (before !== choice && model.settled.has(ticket)),
            remember: () => model.choices.set(ticket, choice),
          };
        }
        case 'settle':
          return {
            run: (context: Context, key: object) => settleLoads(context, { agreementId, ...key }),
            refusedBy: () => false,
            remember: () => model.settle(),
          };
      }
    }
  }
  expect(settled).toBeGreaterThan(SEQUENCES * 1.6);
  expect(refusals).toBeGreaterThan(SEQUENCES * 4);
  expect((await verifyRecord(record.tools)).faults).toEqual([]);
});
