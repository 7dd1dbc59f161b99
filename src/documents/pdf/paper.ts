/**
 * The two paper sizes and the margins kept on them, in points (72 to the inch).
 */
export type PaperName = 'letter' | 'a4';

export interface Paper {
  readonly width: number;
  readonly height: number;
  readonly margin: { readonly side: number; readonly top: number; readonly bottom: number };
}

const MARGIN = { side: 48, top: 36, bottom: 44 };

export const PAPERS: Readonly<Record<PaperName, Paper>> = {
  letter: { width: 612, height: 792, margin: MARGIN },
  a4: { width: 595.28, height: 841.89, margin: MARGIN },
};
