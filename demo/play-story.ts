/**
 * Plays the story of a season's money in a shared record: its agreement is recorded, and then each line is done by its
 * own use case, as the party that it names and on its own day. Each line has a request key, so that a story that was
 * played, or broken off, can be played again and is done once.
 */
import { readFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { WrongUse } from '../src/cli/exit-status.ts';
import type { LocalDate } from '../src/domain/dates/local-date.ts';
import { LOADS, PRICES, SAMPLES, type TableShape } from '../src/domain/tables/table-shape.ts';
import { openSeason } from '../src/files/read-season.ts';
import { readTable } from '../src/files/read-table.ts';
import { recordAgreement } from '../src/usecases/agreements/record-agreement.ts';
import type { Caller, Context, Tools } from '../src/usecases/context.ts';
import type { InputRow } from '../src/usecases/read-input-rows.ts';
import { Refusal } from '../src/usecases/refusal.ts';
import { doAct } from './story-acts.ts';
import { readStory, type StoryLine } from './story-lines.ts';
import { newMemory } from './story-memory.ts';

export const STORY_FILE = 'money.txt';

export interface StoryToPlay {
  readonly folder: string;
  readonly seller: Caller;
  readonly buyer: Caller;
}

export interface PlayedStory {
  readonly agreementId: string;
  readonly acts: number;
  /** Of its first and last line. */
  readonly from: LocalDate;
  readonly to: LocalDate;
}

/** Throws `WrongUse` with every line that cannot be read, or with the first that the record refuses. */
export async function playStory(tools: Tools, { folder, seller, buyer }: StoryToPlay): Promise<PlayedStory> {
  const { season, problems } = await openSeason(folder);
  if (!season) throw new WrongUse(`${folder} has ${problems.length} faults, so its story cannot be played.`);
  const { agreement, document } = season;
  const lines = await readLines(folder, [agreement.seller, agreement.buyer]);
  const [first, last] = [lines[0], lines.at(-1)];
  if (!first || !last) throw new WrongUse(`${join(folder, STORY_FILE)} tells nothing.`);
  const parties = { sellerId: seller.partyId, buyerId: buyer.partyId };
  const { agreementId } = await recordAgreement(asOn(tools, seller, { day: first.day, nth: 0 }), {
    document,
    ...parties,
  });
  const memory = newMemory({
    agreementId,
    sellerName: agreement.seller,
    buyerName: agreement.buyer,
    loads: await allRows(folder, LOADS),
    results: await allRows(folder, SAMPLES),
    quotes: await allRows(folder, PRICES),
  });
  for (const [index, { line, day, by, act }] of lines.entries()) {
    const side = by === agreement.seller ? 'seller' : 'buyer';
    const caller = { seller, buyer }[side];
    const context = asOn(tools, caller, { day, nth: index + 1 });
    const key = `${agreement.id} ${STORY_FILE} ${index + 1}`;
    try {
      await doAct(context, act, { memory, day, side, key });
    } catch (error) {
      if (!(error instanceof Refusal || error instanceof WrongUse)) throw error;
      throw new WrongUse(`${join(basename(folder), STORY_FILE)} line ${line}: ${error.message}`);
    }
  }
  return { agreementId, acts: lines.length, from: first.day, to: last.day };
}

async function readLines(folder: string, parties: readonly string[]): Promise<readonly StoryLine[]> {
  const { lines, problems } = readStory(await readFile(join(folder, STORY_FILE), 'utf8'), parties);
  const at = join(basename(folder), STORY_FILE);
  if (problems.length > 0) throw new WrongUse(problems.map((problem) => `${at} ${problem}`).join('\n'));
  return lines;
}

/** Noon UTC is the same date nearly everywhere; a second for each line keeps them in order. */
export function asOn(
  tools: Tools,
  caller: Caller,
  { day, nth }: { readonly day: LocalDate; readonly nth: number },
): Context {
  let now = Date.parse(`${day}T12:00:00Z`) + nth * 1000;
  return { ...tools, caller, now: () => now++ };
}

async function allRows(folder: string, shape: TableShape): Promise<readonly InputRow[]> {
  const rows: InputRow[] = [];
  for await (const batch of readTable(folder, shape)) rows.push(...batch);
  return rows;
}
