/**
 * The demo's shared record: an owner for each of its parties, made through the same use cases as anybody, three seasons
 * of two of them, one with all that happened to its money and one with all that was asked about it, and feed for sale.
 */
import { randomBytes } from 'node:crypto';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { WrongUse } from '../src/cli/exit-status.ts';
import type { Caller, Context } from '../src/usecases/context.ts';
import type { OpenRecord } from '../src/usecases/open-record.ts';
import { createFirstPerson, isFirstRun } from '../src/usecases/people/create-first-person.ts';
import { invitePartner } from '../src/usecases/people/invite.ts';
import { joinParty } from '../src/usecases/people/join-party.ts';
import { type ImportedAs, importAs, ownerNamed } from '../src/usecases/season/import-as.ts';
import { type PlayedStory, playStory } from './play-story.ts';
import { recordDemoMarket } from './record-market.ts';

export interface DemoPerson {
  readonly name: string;
  readonly party: string;
  readonly email: string;
  readonly password: string;
}

export interface DemoRecord {
  readonly people: readonly DemoPerson[];
  readonly imported: ImportedAs;
  /** In the order of the stories. */
  readonly played: readonly PlayedStory[];
}

const GROWER = { name: 'Wanda Okafor-Lindqvist', party: 'Quillback Acres', email: 'wanda@quillback.example' };
const DAIRY = { name: 'Teo Marchetti-Bryn', party: 'Tarn Hollow Dairy', email: 'teo@tarn-hollow.example' };
const OTHERS = [
  { name: 'Ines Halvorsen-Quill', party: 'Oddmeadow Farm', email: 'ines@oddmeadow.example' },
  { name: 'Bram Okonkwo-Vale', party: 'Lanternfield Dairy', email: 'bram@lanternfield.example' },
  { name: 'Noor Castellane', party: 'Sorrel Bend Dairy', email: 'noor@sorrel-bend.example' },
];

export interface DemoFolders {
  /** A season as it is imported, and those whose stories are played. */
  readonly season: string;
  readonly stories: readonly string[];
  readonly dataFolder: string;
}

/**
 * Makes the people, once, imports the season and plays the stories, which adds only what is not there yet. Their passwords are made by
 * chance and kept in a file of the data folder that only its owner can read, so that a second run can print them again.
 */
export async function recordDemoSeason(
  record: OpenRecord,
  { season, stories, dataFolder }: DemoFolders,
): Promise<DemoRecord> {
  const kept = join(dataFolder, 'demo-people.json');
  if (await isFirstRun(record)) {
    const people = [GROWER, DAIRY, ...OTHERS].map((person) => ({ ...person, password: newPassword() }));
    const [grower, ...others] = people;
    if (!grower) throw new Error('The demo has people');
    const first = asOwner(record, await createFirstPerson(record, grower));
    const parties: Record<string, Context> = { [grower.party]: first };
    for (const person of others) {
      const { secret } = await invitePartner(first, { party: person.party });
      parties[person.party] = asOwner(
        record,
        await joinParty(record, { ...person, secret, address: 'localhost' }),
      );
    }
    await recordDemoMarket(parties);
    await writeFile(kept, JSON.stringify(people), { mode: 0o600 });
  }
  const text = await readFile(kept, 'utf8').catch(() => {
    throw new WrongUse(
      `${dataFolder} holds a record that is not the demo's. Name an empty folder in HUSKLEDGER_DATA.`,
    );
  });
  const people = JSON.parse(text) as DemoPerson[];
  const owner = async ({ email, party }: typeof GROWER) =>
    (await ownerNamed(record, { email, parties: [party] })).caller;
  const imported = await importAs(record, { folder: season, email: GROWER.email, otherEmail: DAIRY.email });
  const [seller, buyer] = [await owner(GROWER), await owner(DAIRY)];
  const played: PlayedStory[] = [];
  for (const folder of stories) played.push(await playStory(record, { folder, seller, buyer }));
  return { people, imported, played };
}

function asOwner(record: OpenRecord, { personId, partyId }: Omit<Caller, 'role'>): Context {
  return { ...record, caller: { personId, partyId, role: 'owner' } };
}

/** 96 bits of chance, in letters that are read out without mistakes. */
function newPassword(): string {
  return randomBytes(12)
    .toString('hex')
    .replace(/(.{6})(?=.)/g, '$1-');
}
