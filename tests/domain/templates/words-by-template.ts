/**
 * The words of an agreement as a template draws it.
 */
import { checkAgreement } from '../../../src/domain/agreement/check-agreement.ts';
import type { Template, TemplateBasics } from '../../../src/domain/templates/template.ts';
import { agreementInWords } from '../../../src/domain/words/agreement-words.ts';
import { BASICS } from './priced-by-template.ts';

/** All its paragraphs, each on a line. */
export function wordsBy(template: Template, basics: TemplateBasics = BASICS): string {
  const { agreement, problems } = checkAgreement(template.draw(basics));
  if (!agreement) throw new Error(JSON.stringify(problems));
  return agreementInWords(agreement)
    .flatMap(({ paragraphs }) => paragraphs)
    .join('\n');
}
