/**
 * Rounds of work with a kill in each, at a moment that chance chooses. After each round the record is opened by nobody's
 * hand, and must have kept its word. The next round's worker first asks again what was never answered.
 */
import { setTimeout as pause } from 'node:timers/promises';
import type { Chance } from '../../oracle/random.ts';
import { brokenWords, newWord, openQuestions, takeIn, type Word } from './kept-word.ts';
import { type Place, type Places, withRecord } from './record-place.ts';
import type { Season } from './said.ts';
import { startWorker, type Worker } from './start-worker.ts';

export interface RoundsToRun {
  readonly program: string;
  readonly places: Places;
  readonly chance: Chance;
  readonly kills: number;
}

export interface Tally {
  kills: number;
  answered: number;
  /** Asked and not answered when a kill came. */
  unanswered: number;
  rounds: number;
  /** By what was killed. */
  readonly killed: Record<string, number>;
}

/** What a round works with. */
interface Round extends RoundsToRun {
  readonly place: Place;
  readonly season: Season;
  readonly word: Word;
  readonly number: number;
  readonly tally: Tally;
}

/** Rounds on one record; more would make checking long. */
const ROUNDS_ON_ONE = 8;
const LANES = 4;

/** Throws with what is broken where a record does not keep its word. */
export async function runRounds(run: RoundsToRun): Promise<Tally> {
  const tally: Tally = { kills: 0, answered: 0, unanswered: 0, rounds: 0, killed: {} };
  while (tally.kills < run.kills) {
    const { place, season } = await run.places.newPlace();
    const word = newWord();
    for (let on = 0; on < ROUNDS_ON_ONE && tally.kills < run.kills; on++) {
      const number = ++tally.rounds;
      const round = { ...run, place, season, word, number, tally };
      if (run.places.server) await roundOnServer(round);
      else await roundInFolder(round);
      const broken = await withRecord(place, (tools) => brokenWords(tools, word));
      if (broken.length > 0)
        throw new Error(`After round ${number}, in ${place.dataFolder}:\n${broken.join('\n')}`);
    }
    tally.answered += word.answered.size;
  }
  return tally;
}

/** The owner of the folder is killed, alone or while another process works through it; or that other one is. */
async function roundInFolder(round: Round): Promise<void> {
  const owner = start(round, 'a', true);
  if (round.chance.happens(0.4)) {
    await anyMoment(round, owner);
    await kill(round, owner, 'owner alone');
    return;
  }
  await owner.hear('ready');
  const other = start(round, 'b', false);
  await other.hear('ready');
  await pause(round.chance.integer(0, 1_200));
  if (round.chance.happens(0.7)) {
    await kill(round, owner, 'owner with another at work');
    await goesOn(other);
    await end(round, other);
  } else {
    await kill(round, other, 'another at work through the owner');
    await goesOn(owner);
    await end(round, owner);
  }
}

/** One of two programs is killed, or the server under both. */
async function roundOnServer(round: Round): Promise<void> {
  const [one, other] = [start(round, 'a', true), start(round, 'b', false)];
  await other.hear('ready');
  await anyMoment(round, one);
  const { server } = round.places;
  if (server && round.chance.happens(0.5)) {
    await one.hear('ready');
    await server.kill();
    count(round, 'server');
    await pause(round.chance.integer(0, 200));
    await server.restart();
    await goesOn(one);
    await end(round, one);
  } else {
    await kill(round, one, 'program');
  }
  await goesOn(other);
  await end(round, other);
}

function start(
  { program, place, season, word, number, chance }: Round,
  name: string,
  first: boolean,
): Worker {
  return startWorker(program, {
    ...place,
    season,
    lanes: LANES,
    name: `${number}${name}`,
    seed: chance.integer(1, 1_000_000_000),
    reopens: place.databaseUrl === undefined && chance.happens(0.5),
    again: first ? openQuestions(word) : [],
  });
}

/** While it starts, or while it works. */
async function anyMoment({ chance }: Round, worker: Worker): Promise<void> {
  if (chance.happens(0.25)) {
    await pause(chance.integer(0, 1_000));
  } else {
    await worker.hear('ready');
    await pause(chance.integer(0, 1_500));
  }
}

/** It is answered something that it asked only now. */
async function goesOn(worker: Worker): Promise<void> {
  const asked = await worker.hear('asking', worker.said.length);
  const deadline = performance.now() + 60_000;
  while (!worker.said.some((line) => line.said === 'answered' && line.key === asked.asked.key)) {
    if (performance.now() > deadline) {
      throw new Error(
        `A worker that was not killed does not go on; it said last ${JSON.stringify(worker.said.at(-1))}`,
      );
    }
    await pause(5);
  }
}

/** By another kill, or by its own hand and without complaint. */
async function end(round: Round, worker: Worker): Promise<void> {
  if (round.chance.happens(0.5)) {
    await pause(round.chance.integer(0, 500));
    await kill(round, worker, 'the one that went on');
    return;
  }
  const { status, errors } = await worker.finish();
  takeIn(round.word, worker.said);
  if (status !== 0 || errors !== '') throw new Error(`A worker ended with status ${status}: ${errors}`);
}

async function kill(round: Round, worker: Worker, what: string): Promise<void> {
  await worker.kill();
  count(round, what);
  const own = newWord();
  takeIn(own, worker.said);
  round.tally.unanswered += openQuestions(own).length;
  takeIn(round.word, worker.said);
}

function count({ tally }: Round, what: string): void {
  tally.kills++;
  tally.killed[what] = (tally.killed[what] ?? 0) + 1;
}
