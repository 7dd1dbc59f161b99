/**
 * A sealed season as one zip file for an auditor: the file that the seal stands over, and what it says as tables. All of it
 * follows from the season's file, and there is one way to write it, so that any changed byte is seen.
 */
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { closingStatementShape } from '../../domain/season-close/closing-statement.ts';
import { type SeasonFile, seasonFileShape } from '../../domain/season-close/season-file.ts';
import { sha256 } from '../../journal/fingerprint.ts';
import { aboutArchive } from './about-archive.ts';
import { accountTables } from './account-tables.ts';
import { type CheckedSeason, checkSeasonFile } from './check-season-file.ts';
import { inputTables } from './input-tables.ts';
import { seasonJournal } from './season-journal.ts';
import { seasonNoteTables } from './season-note-tables.ts';

export const SEASON_FILE = 'season.json';
/** Larger than any season: what a small file unpacks to is limited by it. */
const LARGEST_BYTES = 2 ** 30;

/** `text` is that of the season's file, which must fit (`checkSeasonFile`). The same bytes on every machine. */
export function seasonArchive(text: string): Uint8Array {
  const file = seasonFileShape.parse(JSON.parse(text));
  return zipped(file, filesOf(file, text));
}

type NamedTexts = readonly (readonly [name: string, text: string])[];

function zipped({ seal }: SeasonFile, files: NamedTexts): Uint8Array {
  // Without an offset, a time is one of this machine's clock, and that is how zip keeps it: the same everywhere.
  const mtime = `${seal.sealedAt.slice(0, 10)}T12:00:00`;
  // Stored, not packed: what a packer makes of a text changes with its version.
  return zipSync(Object.fromEntries(files.map(([name, held]) => [name, strToU8(held)])), { level: 0, mtime });
}

function filesOf(file: SeasonFile, text: string): NamedTexts {
  const journal = seasonJournal(file);
  const tables: (readonly [name: string, text: string])[] = [
    [SEASON_FILE, text],
    ...file.agreements.map((version, index) => [`agreement/version-${index + 1}.json`, version] as const),
    ...inputTables(file, journal).map(([name, held]) => [`season/${name}`, held] as const),
    ...accountTables(journal).map(([name, held]) => [`accounts/${name}`, held] as const),
  ];
  const notes = seasonNoteTables(journal).map(([name, held]) => [`accounts/${name}`, held] as const);
  tables.push(...notes);
  const statement = closingStatementShape.parse(JSON.parse(file.statement));
  const about = ['about.txt', aboutArchive(file, { statement, hasNotes: notes.length > 0 })] as const;
  const sums = [about, ...tables].map(([name, held]) => `${sha256(held)}  ${name}\n`).join('');
  return [about, ...tables, ['checksums.txt', sums]];
}

/** Checks the season's file in an archive, and that all else is what that file says. Names what is not. */
export function checkSeasonArchive(bytes: Uint8Array): CheckedSeason {
  const held = unpacked(bytes);
  if (!held) return { faults: ['It is no zip file that can be read.'], season: undefined };
  const own = held.get(SEASON_FILE);
  if (own === undefined) return { faults: [`There is no ${SEASON_FILE} in it.`], season: undefined };
  const checked = checkSeasonFile(own);
  if (checked.faults.length > 0 || !checked.season) return checked;
  const file = seasonFileShape.parse(JSON.parse(own));
  let files: NamedTexts;
  try {
    files = filesOf(file, own);
  } catch {
    return { ...checked, faults: ['Its journal cannot be read as tables.'] };
  }
  const expected = new Set(files.map(([name]) => name));
  const faults = [
    ...files.flatMap(([name, text]) =>
      held.get(name) === text
        ? []
        : [held.has(name) ? `${name} is not what was exported.` : `${name} is missing.`],
    ),
    ...[...held.keys()].filter((name) => !expected.has(name)).map((name) => `${name} was not exported.`),
  ];
  if (faults.length === 0 && !isSame(zipped(file, files), bytes)) {
    faults.push('The zip file is not as it was exported, though all that is in it is.');
  }
  return { ...checked, faults };
}

function unpacked(bytes: Uint8Array): ReadonlyMap<string, string> | undefined {
  let total = 0;
  try {
    const held = unzipSync(bytes, {
      filter: ({ originalSize }) => {
        total += originalSize;
        if (total > LARGEST_BYTES) throw new RangeError('too large');
        return true;
      },
    });
    return new Map(Object.entries(held).map(([name, file]) => [name, strFromU8(file)]));
  } catch {
    return undefined;
  }
}

function isSame(one: Uint8Array, other: Uint8Array): boolean {
  return one.length === other.length && one.every((byte, index) => byte === other[index]);
}
