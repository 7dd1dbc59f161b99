/**
 * A process of its own that works on the shared record until its input ends or it is killed, and says on its output
 * what it asks and what it was answered. Where the record goes away under its hands, it asks the same again.
 */
import { readFileSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import { EngineUnavailable, type OpenRecord, openRecord } from '../../../src/usecases/open-record.ts';
import { Refusal } from '../../../src/usecases/refusal.ts';
import { ask } from './ask.ts';
import type { Asked, Errand, Said, Season } from './said.ts';
import { truckloads } from './truckloads.ts';

const errand: Errand = JSON.parse(readFileSync(process.argv[2] ?? '', 'utf8'));
let told = '';
let ended = false;
process.stdin.on('data', (text: Buffer) => {
  told += text.toString();
});
process.stdin.on('end', () => {
  ended = true;
});

/** Pipes are written at once, so what was said stays said after a kill. */
function say(said: Said): void {
  process.stdout.write(`${JSON.stringify(said)}\n`);
}

let opening: Promise<OpenRecord> | undefined;
let record: OpenRecord;

/** Lanes that find the record gone at one time open it once. */
async function reopen(gone: OpenRecord): Promise<void> {
  if (record !== gone) return;
  opening ??= (async () => {
    await gone.close().catch(() => {});
    const opened = await openRecord(errand, '.');
    say({ said: 'reopened', description: opened.description });
    return opened;
  })();
  record = await opening;
  opening = undefined;
}

async function askUntilAnswered(season: Season, asked: Asked): Promise<Awaited<ReturnType<typeof ask>>> {
  say({ said: 'asking', asked });
  for (;;) {
    const used = record;
    try {
      const answer = await ask(used, season, asked);
      say({ said: 'answered', key: asked.key, answer });
      return answer;
    } catch (error) {
      say({ said: 'failed', message: String(error) });
      if (error instanceof Refusal) throw error;
      if (errand.reopens) await reopen(used);
      else await pause(50);
    }
  }
}

async function work(season: Season): Promise<void> {
  for (const asked of errand.again) await askUntilAnswered(season, asked);
  const lanes = Array.from({ length: errand.lanes }, async (_, lane) => {
    const agreementId = season.agreementIds[lane % season.agreementIds.length] ?? '';
    const work = truckloads({
      name: `${errand.name}-${lane}`,
      seed: errand.seed + lane,
      agreementId,
      most: 80,
    });
    let next = work.next();
    while (!ended) next = work.next(await askUntilAnswered(season, next.value));
  });
  await Promise.all(lanes);
}

async function askAtOnce(
  season: Season,
  { asked, times, withKey }: NonNullable<Errand['atOnce']>,
): Promise<void> {
  while (!told.includes('go')) await pause(5);
  await Promise.all(
    Array.from({ length: times }, async (_, index) => {
      const key = withKey ? asked.key : `${asked.key}-${errand.name}-${index}`;
      const answer = await ask(record, season, { ...asked, key });
      say({ said: 'answered', key, answer });
    }),
  );
  say({ said: 'went' });
}

try {
  record = await openRecord(errand, '.');
  say({ said: 'ready', description: record.description });
  const { season, atOnce } = errand;
  if (season && atOnce) await askAtOnce(season, atOnce);
  else if (season) await work(season);
  while (!ended) await pause(10);
  await record.close();
} catch (error) {
  if (!(error instanceof EngineUnavailable)) throw error;
  say({ said: 'unavailable', message: error.message });
  process.exitCode = 1;
}
