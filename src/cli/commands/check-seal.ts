/**
 * `huskledger check-seal FILE`: whether a sealed season's file is what both parties signed. Needs no record.
 */
import { parseArgs } from 'node:util';
import { type CheckedSeason, checkSeasonFile } from '../../documents/season-file/check-season-file.ts';
import { checkSeasonArchive } from '../../documents/season-file/season-archive.ts';
import { readText, readWholeFile } from '../../files/read-bytes.ts';
import { counted } from '../counted.ts';
import { EXIT, type ExitStatus, WrongUse } from '../exit-status.ts';
import type { Terminal } from '../terminal.ts';

export const CHECK_SEAL_HELP = `huskledger check-seal FILE

  Checks the file of a sealed season by itself, without any record: that no entry of its journal was changed, added or
  taken out, and that both parties signed the statement that names its root. FILE is the zip file as it was saved, in
  which every other file has to say the same, or the season.json out of it. Compare the root and the mark that it
  prints with those on the signed closing statement.

  Exit status: 0 when everything fits, 1 when something does not.`;

export async function checkSealCommand(args: readonly string[], terminal: Terminal): Promise<ExitStatus> {
  const { positionals } = parseArgs({ args: [...args], options: {}, allowPositionals: true });
  const [path] = positionals;
  if (path === undefined || positionals.length > 1) {
    throw new WrongUse('Name one file: huskledger check-seal FILE.');
  }
  const { faults, season } = await check(path);
  for (const fault of faults) terminal.say(fault);
  if (!season || faults.length > 0) {
    await terminal.write('The seal does not fit. Ask for the file again, and compare it with a backup.\n');
    await terminal.flush();
    return EXIT.wrong;
  }
  const { statement, root, mark, signatures } = season;
  const signed = signatures.map(
    ({ party, name, signedAt }) => `${name} for ${party} on ${signedAt.slice(0, 10)}`,
  );
  await terminal.write(
    [
      `The seal fits: agreement ${statement.agreement.number}, ${statement.seller} and ${statement.buyer}, ${counted(Number(statement.journal.entries), 'journal entry', 'journal entries')}.`,
      `Signed by ${signed.join(' and ')} (UTC).`,
      `Root ${root}`,
      `Mark ${mark}`,
      '',
    ].join('\n'),
  );
  await terminal.flush();
  return EXIT.done;
}

async function check(path: string): Promise<CheckedSeason> {
  const bytes = await readWholeFile(path, path);
  return isZip(bytes) ? checkSeasonArchive(bytes) : checkSeasonFile(await readText(path, path));
}

/** By its first two bytes, as every zip file begins. */
function isZip([first, second]: Uint8Array): boolean {
  return first === 0x50 && second === 0x4b;
}
