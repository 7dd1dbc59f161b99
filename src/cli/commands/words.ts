/**
 * `huskledger words DIR`: an agreement in plain sentences.
 */
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { Agreement } from '../../domain/agreement/document.ts';
import { agreementInWords } from '../../domain/words/agreement-words.ts';
import { type InputProblem, printProblem } from '../../files/input-problem.ts';
import { readAgreement } from '../../files/read-agreement.ts';
import { EXIT, type ExitStatus, WrongUse } from '../exit-status.ts';
import type { Terminal } from '../terminal.ts';
import { wrap } from '../wrap.ts';

export const WORDS_HELP = `huskledger words DIR

  Prints the agreement in the folder DIR (or in the file DIR) in plain sentences, as its price will be worked out.`;

export async function wordsCommand(args: readonly string[], terminal: Terminal): Promise<ExitStatus> {
  const { positionals } = parseArgs({ args: [...args], allowPositionals: true, options: {} });
  const [place] = positionals;
  if (place === undefined || positionals.length > 1)
    throw new WrongUse('Name one folder: huskledger words DIR');
  const agreement = await readAgreementAt(place, terminal);
  if (!agreement) return EXIT.wrong;
  const sections = agreementInWords(agreement).map(
    ({ heading, paragraphs }) => `${heading}\n\n${paragraphs.map((text) => wrap(text)).join('\n\n')}`,
  );
  await terminal.write(`${sections.join('\n\n\n')}\n`);
  await terminal.flush();
  return EXIT.done;
}

/** The agreement of a folder or file; undefined, with its problems said, where it has any. */
export async function readAgreementAt(place: string, terminal: Terminal): Promise<Agreement | undefined> {
  const isFolder = await stat(place).then(
    (found) => found.isDirectory(),
    () => false,
  );
  const path = isFolder ? join(place, 'agreement.json') : place;
  const problems: InputProblem[] = [];
  const { agreement } = await readAgreement(path, (problem) => problems.push(problem));
  for (const problem of problems) terminal.say(printProblem(problem));
  return problems.length > 0 ? undefined : agreement;
}
