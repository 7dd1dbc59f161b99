/**
 * `huskledger verify`: the whole record, checked.
 */
import { parseArgs } from 'node:util';
import { verifyRecord } from '../../usecases/verify/verify-record.ts';
import { counted } from '../counted.ts';
import { EXIT, type ExitStatus } from '../exit-status.ts';
import { startProgress } from '../progress.ts';
import type { Terminal } from '../terminal.ts';
import { withRecord } from '../with-record.ts';

export async function verifyCommand(args: readonly string[], terminal: Terminal): Promise<ExitStatus> {
  parseArgs({ args: [...args], options: {} });
  const progress = startProgress(terminal, () => performance.now());
  const { agreements, entries, settlements, faults } = await withRecord((record) =>
    verifyRecord(record, {
      onEntries: (count) => progress.report({ doing: 'Checking', done: count, unit: 'entries' }),
    }),
  ).finally(progress.end);
  for (const { agreement, row, message } of faults)
    terminal.say(`Agreement ${agreement}, ${row}: ${message}`);
  const looked = `${counted(agreements, 'agreement')}, ${counted(entries, 'journal entry', 'journal entries')} and ${counted(settlements, 'settlement')}`;
  await terminal.write(
    faults.length === 0
      ? `Everything fits: ${looked}.\n`
      : `${counted(faults.length, 'fault')} found; looked at ${looked}. Somebody changed the database past the program: compare with a backup.\n`,
  );
  await terminal.flush();
  return faults.length === 0 ? EXIT.done : EXIT.wrong;
}
