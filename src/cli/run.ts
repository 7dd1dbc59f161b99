/**
 * The command line: which command, and what a failure looks like to a person.
 */

import packageFile from '../../package.json' with { type: 'json' };
import { printProblem } from '../files/input-problem.ts';
import { UnreadableFile } from '../files/read-bytes.ts';
import { CHECK_SEAL_HELP, checkSealCommand } from './commands/check-seal.ts';
import { IMPORT_HELP } from './commands/import-help.ts';
import { SERVE_HELP } from './commands/serve-help.ts';
import { SETTLE_HELP, settleCommand } from './commands/settle.ts';
import { TRY_HELP, tryCommand } from './commands/try.ts';
import { VERIFY_HELP } from './commands/verify-help.ts';
import { WORDS_HELP, wordsCommand } from './commands/words.ts';
import { EXIT, type ExitStatus, WrongUse } from './exit-status.ts';
import type { Terminal } from './terminal.ts';

interface Command {
  readonly help: string;
  readonly run: (args: readonly string[], terminal: Terminal) => Promise<ExitStatus>;
}

const COMMANDS: ReadonlyMap<string, Command> = new Map([
  ['settle', { help: SETTLE_HELP, run: settleCommand }],
  ['words', { help: WORDS_HELP, run: wordsCommand }],
  ['try', { help: TRY_HELP, run: tryCommand }],
  ['check-seal', { help: CHECK_SEAL_HELP, run: checkSealCommand }],
  // The database is loaded only by the commands that need it, since the others start in a tenth of a second.
  [
    'import',
    {
      help: IMPORT_HELP,
      run: async (args, terminal) => (await import('./commands/import.ts')).importCommand(args, terminal),
    },
  ],
  [
    'serve',
    {
      help: SERVE_HELP,
      run: async (args, terminal) => (await import('./commands/serve.ts')).serveCommand(args, terminal),
    },
  ],
  [
    'verify',
    {
      help: VERIFY_HELP,
      run: async (args, terminal) => (await import('./commands/verify.ts')).verifyCommand(args, terminal),
    },
  ],
]);

const HELP = `Huskledger settles wet corn feed, load by load, to the cent.

${[...COMMANDS.values()].map(({ help }) => help.split('\n')[0]).join('\n')}

huskledger COMMAND --help says more; huskledger --version says which version this is.`;

/** Runs one command line and gives its exit status. Only defects are thrown. */
export async function run(args: readonly string[], terminal: Terminal): Promise<ExitStatus> {
  const [name, ...rest] = args;
  if (name === '--version' || name === '-v') {
    await terminal.write(`huskledger ${packageFile.version}\n`);
    await terminal.flush();
    return EXIT.done;
  }
  const command = name === undefined ? undefined : COMMANDS.get(name);
  if (!command) {
    if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
      await terminal.write(`${HELP}\n`);
      await terminal.flush();
      return name === undefined ? EXIT.wrong : EXIT.done;
    }
    terminal.say(`There is no command ${JSON.stringify(name)}.\n\n${HELP}`);
    return EXIT.wrong;
  }
  if (rest.includes('--help') || rest.includes('-h')) {
    await terminal.write(`${command.help}\n`);
    await terminal.flush();
    return EXIT.done;
  }
  try {
    return await command.run(rest, terminal);
  } catch (error) {
    const message = expectedMessage(error);
    if (message === undefined) throw error;
    terminal.say(message);
    return EXIT.wrong;
  }
}

/** What to tell the user of an expected failure; undefined for a defect of ours. */
function expectedMessage(error: unknown): string | undefined {
  if (error instanceof WrongUse) return error.message;
  if (error instanceof UnreadableFile) return printProblem(error.problem);
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (code.startsWith('ERR_PARSE_ARGS_')) {
    const option = /'(--?[^\s'=<]+)/.exec(error instanceof Error ? error.message : '')?.[1] ?? 'an option';
    return code === 'ERR_PARSE_ARGS_UNKNOWN_OPTION'
      ? `There is no option ${option}. huskledger COMMAND --help lists them.`
      : `${option} is not used like this. huskledger COMMAND --help shows how.`;
  }
  return undefined;
}
