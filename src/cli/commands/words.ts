/**
 * `huskledger words DIR`: an agreement in plain sentences, on the terminal or as PDF.
 */
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { Agreement } from '../../domain/agreement/document.ts';
import { agreementInWords } from '../../domain/words/agreement-words.ts';
import { type InputProblem, printProblem } from '../../files/input-problem.ts';
import { type AgreementFile, readAgreement } from '../../files/read-agreement.ts';
import { counted } from '../counted.ts';
import { EXIT, type ExitStatus, WrongUse } from '../exit-status.ts';
import type { Terminal } from '../terminal.ts';
import { wrap } from '../wrap.ts';

export const WORDS_HELP = `huskledger words DIR [--pdf OUT [--paper letter|a4]]

  Prints the agreement in the folder DIR (or in the file DIR) in plain sentences, as its price will be worked out.

  --pdf OUT     write it to the PDF file OUT instead: an unsigned copy with lines to sign by hand, the agreement's
                fingerprint on each page, and its file attached
  --paper SIZE  letter or a4 (without it: a4 for a metric agreement, else letter)`;

export async function wordsCommand(args: readonly string[], terminal: Terminal): Promise<ExitStatus> {
  const { place, pdf, paper } = readArguments(args);
  const { agreement, document } = await readAgreementFileAt(place, terminal);
  if (!agreement) return EXIT.wrong;
  if (pdf !== undefined) {
    // The PDF library is loaded only when it is needed: it would double the time that a command takes to start.
    const { writeAgreement } = await import('../write-agreement.ts');
    const pages = await writeAgreement({ agreement, document, out: pdf, paper });
    terminal.say(`Wrote agreement ${agreement.id}, unsigned, on ${counted(pages, 'page')} to ${pdf}`);
    return EXIT.done;
  }
  const sections = agreementInWords(agreement).map(
    ({ heading, paragraphs }) => `${heading}\n\n${paragraphs.map((text) => wrap(text)).join('\n\n')}`,
  );
  await terminal.write(`${sections.join('\n\n\n')}\n`);
  await terminal.flush();
  return EXIT.done;
}

interface WordsArguments {
  readonly place: string;
  readonly pdf: string | undefined;
  readonly paper: 'letter' | 'a4' | undefined;
}

function readArguments(args: readonly string[]): WordsArguments {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: { pdf: { type: 'string' }, paper: { type: 'string' } },
  });
  const [place] = positionals;
  if (place === undefined || positionals.length > 1)
    throw new WrongUse('Name one folder: huskledger words DIR');
  const { pdf, paper } = values;
  if (pdf === undefined && paper !== undefined) throw new WrongUse('--paper goes with --pdf OUT.');
  if (pdf !== undefined && !/^[^-].*\.pdf$/i.test(pdf))
    throw new WrongUse(`--pdf needs the name of a file that ends in .pdf; found ${JSON.stringify(pdf)}.`);
  if (paper !== undefined && paper !== 'letter' && paper !== 'a4')
    throw new WrongUse(`--paper takes letter, a4; found ${JSON.stringify(paper)}.`);
  return { place, pdf, paper };
}

/** The agreement of a folder or file; undefined, with its problems said, where it has any. */
export async function readAgreementAt(place: string, terminal: Terminal): Promise<Agreement | undefined> {
  return (await readAgreementFileAt(place, terminal)).agreement;
}

async function readAgreementFileAt(
  place: string,
  terminal: Terminal,
): Promise<Pick<AgreementFile, 'agreement' | 'document'>> {
  const isFolder = await stat(place).then(
    (found) => found.isDirectory(),
    () => false,
  );
  const path = isFolder ? join(place, 'agreement.json') : place;
  const problems: InputProblem[] = [];
  const { agreement, document } = await readAgreement(path, (problem) => problems.push(problem));
  for (const problem of problems) terminal.say(printProblem(problem));
  return { agreement: problems.length > 0 ? undefined : agreement, document };
}
