/**
 * All that stands on a retest's paper between the head and the foot of its pages, in groups.
 */
import type { Piece } from '../pdf/flow.ts';
import { figurePieces } from './figures-section.ts';
import { moneyPieces, outcomePieces } from './outcome-section.ts';
import { questionPieces } from './question-section.ts';
import { headingPieces } from './retest-heading.ts';
import type { RetestSetting } from './retest-setting.ts';
import { rulePieces, stepPieces } from './rule-and-steps.ts';
import { sealPieces } from './seals-section.ts';
import { weighingPieces } from './weighings-section.ts';

/** Top down: what is asked, what was tested, by which rule, what was done, what came of it. */
export function retestPieces(setting: RetestSetting): Piece[][] {
  const isWeight = setting.record.about === 'weight';
  return [
    headingPieces(setting),
    questionPieces(setting),
    ...sealPieces(setting),
    isWeight ? weighingPieces(setting) : figurePieces(setting),
    rulePieces(setting),
    stepPieces(setting),
    outcomePieces(setting),
    ...moneyPieces(setting),
  ];
}
