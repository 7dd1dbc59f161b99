/**
 * The story of demo/asked-again on a fresh record: how each question ends, what is held, every document and the balance are
 * those that `tests/oracle/asked-again.ts` and `asked-again-money.ts` work out without the product.
 */
import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { asOn, type PlayedStory, playStory } from '../../demo/play-story.ts';
import { WrongUse } from '../../src/cli/exit-status.ts';
import { documentName } from '../../src/domain/money/money-document.ts';
import type { Statement } from '../../src/domain/money/statement.ts';
import type { RetestRecord } from '../../src/domain/retests/retest-record.ts';
import type { Caller, Context } from '../../src/usecases/context.ts';
import { readStatements } from '../../src/usecases/money/read-statement.ts';
import { passTime } from '../../src/usecases/retests/pass-time.ts';
import { readPatterns } from '../../src/usecases/retests/read-patterns.ts';
import { readRetest } from '../../src/usecases/retests/read-retest.ts';
import { readRetestList } from '../../src/usecases/retests/read-retest-list.ts';
import { readSeasonPage } from '../../src/usecases/season/read-season-page.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { ENDED, PRICES } from '../oracle/asked-again.ts';
import { CLOSING, ENTRIES, HELD, LEFT_OVER, OPEN, STILL_HELD } from '../oracle/asked-again-money.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';

const FOLDER = 'demo/asked-again';

let record: TestRecord;
let callers: Readonly<Record<'seller' | 'buyer', Caller>>;
let played: PlayedStory;
beforeAll(async () => {
  record = await openTestRecord();
  callers = {
    seller: await newParty(record.tools, 'Quillback Acres'),
    buyer: await newParty(record.tools, 'Tarn Hollow Dairy'),
  };
  played = await playStory(record.tools, { folder: FOLDER, ...callers });
}, 120_000);
afterAll(async () => {
  await record.close();
});

function at(side: 'seller' | 'buyer', day: string = played.to): Context {
  return asOn(record.tools, callers[side], { day: day as PlayedStory['to'], nth: 1000 });
}

/** All questions as a side reads them, the first asked first. */
async function questions(side: 'seller' | 'buyer', day?: string) {
  const context = at(side, day);
  const { items } = await readRetestList(context, { locale: 'en-US' });
  const read = await Promise.all(
    items.map(async (item) => {
      const { record: found } = await readRetest(context, { retestId: item.id, locale: 'en-US' });
      return { item, found };
    }),
  );
  // Ids grow as questions are asked.
  return read.sort((a, b) => (a.item.id < b.item.id ? -1 : 1));
}

async function statement(side: 'seller' | 'buyer'): Promise<Statement> {
  const [only, ...others] = await readStatements(at(side), { agreementId: played.agreementId });
  if (!only || others.length > 0) throw new Error('There is one statement, in one currency');
  return only;
}

/** Cents of a decimal with two places. */
function cents(text: string): bigint {
  expect(text).toMatch(/^-?\d+\.\d\d$/);
  return BigInt(text.replace('.', ''));
}

function endedAs(what: string, { ending, documents }: RetestRecord) {
  return {
    what,
    because: ending?.because,
    value: ending?.value,
    changed: cents(ending?.changed ?? ''),
    sellerBears: cents(ending?.sellerBears ?? ''),
    buyerBears: cents(ending?.buyerBears ?? ''),
    documents: documents.map((document) => [documentName(document), cents(document.payable)]),
  };
}

describe('what was worked out by hand', () => {
  test('prices each load as demo/expected/asked-again.csv has it', async () => {
    const rows = (await readFile('demo/expected/asked-again.csv', 'utf8')).trimEnd().split('\n').slice(1, -1);
    const settled = rows.map((row) => row.split(',')).filter(([, status]) => status === 'settled');
    expect(settled.map(([ticket, , , total]) => [ticket, cents(total ?? '')])).toEqual([...PRICES]);
  });

  test('adds up, and what is paid settles what it is for to the cent', () => {
    expect(ENTRIES.reduce((sum, [, , change]) => sum + change, 0n)).toBe(CLOSING);
    expect(OPEN.reduce((sum, [, open]) => sum + open, 0n)).toBe(CLOSING);
    for (const [name, left] of LEFT_OVER) expect([name, left]).toEqual([name, 0n]);
  });
});

describe('the product plays the story', () => {
  test('the season’s page tells each question with its ending and what it moved', async () => {
    const { questions: asked } = await readSeasonPage(at('seller'), {
      agreementId: played.agreementId,
      locale: 'en-US',
    });
    const sum = (pick: (one: (typeof ENDED)[number]) => bigint) => {
      const units = ENDED.reduce((total, one) => total + pick(one), 0n)
        .toString()
        .padStart(3, '0');
      return `${units.slice(0, -2).replace(/\B(?=(\d{3})+$)/g, ',')}.${units.slice(-2)}`;
    };
    expect(asked).toMatchObject({
      asked: ENDED.length + 1,
      open: 1,
      decided: 8,
      agreed: 1,
      withdrawn: 1,
      toSeller: sum(({ changed }) => (changed > 0n ? changed : 0n)),
      toBuyer: sum(({ changed }) => (changed < 0n ? -changed : 0n)),
      costs: { seller: sum(({ sellerBears }) => sellerBears), buyer: sum(({ buyerBears }) => buyerBears) },
    });
    const over = asked?.items.filter(({ isOver }) => isOver) ?? [];
    expect(over.map(({ what, value }) => [what, value?.replace(',', '')])).toEqual(
      ENDED.map(({ what, value }) => [what, value]),
    );
    expect(over.map(({ moved }) => moved?.to)).toEqual(
      ENDED.map(({ changed }) => (changed === 0n ? undefined : changed > 0n ? 'seller' : 'buyer')),
    );
    expect(over[0]).toMatchObject({ first: '48,540', value: '47,900', unit: 'lb', stays: false });
    expect(over[1]).toMatchObject({ value: '28.43', unit: '% of dry matter', stays: true });
  });

  test.each(['seller', 'buyer'] as const)('to the same endings, as the %s reads them', async (side) => {
    const ended = (await questions(side)).filter(({ item }) => item.isOver);
    expect(ended.map(({ item, found }) => endedAs(item.what, found))).toEqual(ENDED);
  });

  test('and leaves one question open, whose figure waits for the grower', async () => {
    const [open, ...others] = (await questions('seller')).filter(({ item }) => !item.isOver);
    expect(others).toEqual([]);
    expect(open?.item).toMatchObject({
      what: 'Starch of sample E-7',
      forYou: 'A reported figure waits for your word: confirm or contest it.',
      dueOn: '2026-12-02',
    });
    expect(cents(open?.found.held ?? '')).toBe(STILL_HELD);
    const buyers = (await questions('buyer')).find(({ item }) => !item.isOver);
    expect(buyers?.item).toMatchObject({ forYou: undefined, isOurs: true });
  });

  test('and holds what the dairy doubts, as far as it is not paid', async () => {
    const client = await record.superuser();
    const { rows } = await client.query<Record<'on' | 'what' | 'ticket' | 'amount', string>>(
      `SELECT to_char(h.recorded_at, 'YYYY-MM-DD') AS on, concat_ws(' ', r.about, s.name) AS what, l.ticket, h.amount::text
       FROM hold h JOIN retest r ON r.id = h.retest_id JOIN load l ON l.id = h.load_id LEFT JOIN sample s ON s.id = r.sample_id
       ORDER BY h.recorded_at, h.id`,
    );
    await client.end();
    expect(rows.map(({ on, what, ticket, amount }) => [on, what, ticket, cents(amount)])).toEqual(HELD);
  });

  test('with each document in its order, and one balance for both sides', async () => {
    const [sellers, buyers] = [await statement('seller'), await statement('buyer')];
    expect(sellers.entries.map(({ on, name, amount }) => [on, name, cents(amount)])).toEqual(ENTRIES);
    expect(sellers.open.map(({ name, open }) => [name, cents(open)])).toEqual(OPEN);
    expect(cents(sellers.closing)).toBe(CLOSING);
    expect(cents(buyers.closing)).toBe(-CLOSING);
  });

  test('and six meetings of two laboratories are enough to say something of them', async () => {
    const { patterns } = await readPatterns(at('buyer'), { locale: 'en-US' });
    expect(patterns.map(({ name, one, other, meetings }) => [name, one, other, meetings.length])).toEqual([
      ['Starch', 'Alder Bench', 'Bell Reach Referees', 6],
      ['Net weight', 'Home Yard', 'Feed Pad', 1],
      ['Dry matter', 'Alder Bench', 'Fenn Hollow Assays', 1],
    ]);
    // 1.81, 0.44, 1.83, 0.90, 1.77 and 1.72 less: 8.47 in all, 1.41 on average. All six one way: 2 ÷ 64 = 0.031.
    expect(patterns[0]).toMatchObject({ above: 0, below: 6, tests: { signTest: '0.031' } });
    expect(patterns[0]?.sentences[0]).toBe(
      'All 6 times Alder Bench reported more starch than Bell Reach Referees. On average Alder Bench reported 1.41 points more.',
    );
  });

  test('once, however often it is played', async () => {
    const before = await statement('seller');
    expect(await playStory(record.tools, { folder: FOLDER, ...callers })).toEqual(played);
    expect(await statement('seller')).toEqual(before);
  }, 60_000);

  test.each([
    [
      'Quillback Acres confirms 52.80 for starch of sample E-1',
      'There is no 52.80 reported for starch of sample E-1',
    ],
    [
      'Quillback Acres questions starch of sample E-9 as 50: too high',
      'There is no starch of sample E-9 to question.',
    ],
    [
      'Quillback Acres seals sample E-1 in four parts under 9001 to 9003, kept until 2027-01-31: freezer',
      'Four parts take four seals; 9001 to 9003 are not four.',
    ],
    [
      'Quillback Acres has sample E-9 taken by Wren Alder-Voss: five scoops',
      "There is no load of sample E-9 in the season's files.",
    ],
    ['Quillback Acres records loads until 2026-11-30 weighed on Far Scale', 'There is no scale Far Scale'],
  ])('or says at which line it cannot: %s', async (said, why) => {
    const folder = await mkdtemp(join(tmpdir(), 'huskledger-story-'));
    await cp(FOLDER, folder, { recursive: true });
    await writeFile(join(folder, 'money.txt'), `# a remark\n2026-11-27  ${said}\n`);
    const refusal = await playStory(record.tools, { folder, ...callers }).catch((error: Error) => error);
    await rm(folder, { recursive: true });
    expect(refusal).toBeInstanceOf(WrongUse);
    expect((refusal as Error).message).toContain(`money.txt line 2: ${why}`);
  });

  test('and leaves nothing that verify finds', async () => {
    const { settlements, faults } = await verifyRecord(record.tools);
    expect(faults).toEqual([]);
    // 15 loads; 801 to 805, 807 to 809 settled a second time, 806, 810 and 811 twice more.
    expect(settlements).toBe(15 + 8 + 6);
  });

  test('whose last figure counts by itself from 3 December on', async () => {
    expect((await passTime(at('seller', '2026-12-02'))).decided).toBe(0);
    expect((await passTime(at('seller', '2026-12-03'))).decided).toBe(1);
    const last = (await questions('seller', '2026-12-03')).at(-1);
    expect(last?.found.ending).toMatchObject({ because: 'referee-moved-it', value: '53.20' });
    expect((await verifyRecord(record.tools)).faults).toEqual([]);
  });
});
