/**
 * `huskledger import DIR`: a season's folder into the shared record.
 */
import { parseArgs } from 'node:util';
import { printProblem } from '../../files/input-problem.ts';
import { importAs } from '../../usecases/season/import-as.ts';
import { counted } from '../counted.ts';
import { EXIT, type ExitStatus, WrongUse } from '../exit-status.ts';
import { startProgress } from '../progress.ts';
import { readSettings } from '../settings.ts';
import type { Terminal } from '../terminal.ts';
import { withRecord } from '../with-record.ts';

export async function importCommand(args: readonly string[], terminal: Terminal): Promise<ExitStatus> {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      as: { type: 'string' },
      and: { type: 'string' },
      'no-settle': { type: 'boolean', default: false },
    },
  });
  const [folder] = positionals;
  if (folder === undefined || positionals.length > 1)
    throw new WrongUse('Name one folder: huskledger import DIR --as EMAIL');
  const { as: email, and: otherEmail, 'no-settle': noSettle } = values;
  if (email === undefined) throw new WrongUse('Say as whom: huskledger import DIR --as EMAIL');
  const progress = startProgress(terminal, () => performance.now());
  const imported = await withRecord((record) =>
    importAs(record, {
      folder,
      email,
      ...(otherEmail === undefined ? {} : { otherEmail }),
      settle: !noSettle,
      onRecorded: (what, count) => progress.report({ doing: `Recording ${what}`, done: count, unit: 'rows' }),
    }),
  ).finally(progress.end);
  const { problems, warnings, settled, partner, invitation, passedOver } = imported;
  for (const problem of problems) terminal.say(printProblem(problem));
  if (problems.length > 0) {
    terminal.say(`${counted(problems.length, 'problem')}; nothing was recorded.`);
    return EXIT.wrong;
  }
  for (const warning of warnings) terminal.say(`Please check: ${printProblem(warning)}`);
  if (invitation) {
    const { address, port } = readSettings();
    terminal.say(
      `${partner} had no place in the record. Their first owner comes in, once and within two weeks, by ${address ?? `http://localhost:${port}`}/join/${invitation.secret}`,
    );
  }
  for (const [file, rows] of Object.entries({
    'elections.csv': passedOver.elections,
    'choices.csv': passedOver.choices,
  })) {
    if (rows === 0) continue;
    terminal.say(
      `${file}: ${rows} passed over, since these are for ${partner} to decide. An owner of theirs can import the same folder, or be named too: --and EMAIL.`,
    );
  }
  await terminal.write(
    settled
      ? `Recorded. ${counted(settled.settled, 'load')} settled now, ${settled.refused} refused, ${settled.waiting} waiting.\n`
      : 'Recorded. Nothing was settled.\n',
  );
  await terminal.flush();
  return settled && settled.waiting > 0 ? EXIT.waiting : EXIT.done;
}
