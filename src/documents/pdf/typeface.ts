/**
 * A font as the pages use it: each string is turned into glyph codes and a width once, then remembered.
 * A code stands for one character, not one glyph, so that two characters drawn alike still extract as themselves.
 * Characters the font lacks are kept, with the text they stand in, and never silently left out.
 */
import { type FontFile, openFontFile } from './font-file.ts';

export interface ShapedText {
  /** Two-byte codes in hexadecimal, as they stand between < and > in a page. */
  readonly codes: string;
  /** Width in thousandths of the type size. */
  readonly width: number;
}

export interface UsedCharacter {
  readonly codePoint: number;
  readonly glyphId: number;
  readonly advance: number;
}

export type MissingCharacter = { readonly character: string; readonly text: string };

const SPACE = 0x20;

/** Tabs, line ends and blanks at which no line breaks. */
const BLANKS: readonly number[] = [0x09, 0x0a, 0x0d, 0xa0];

/** All blanks are spaces on paper, so that a figure with its unit is found as it is typed. */
function printed(codePoint: number): number {
  return BLANKS.includes(codePoint) ? SPACE : codePoint;
}

export class Typeface {
  readonly file: FontFile;
  /** The name by which a page's operators call this font. */
  readonly resource: string;
  readonly #shaped = new Map<string, ShapedText>();
  readonly #codes = new Map<number, { readonly hex: string; readonly advance: number }>();
  readonly #used: UsedCharacter[] = [];
  readonly #missing = new Map<string, string>();

  constructor(bytes: Uint8Array, resource: string) {
    this.file = openFontFile(bytes);
    this.resource = resource;
  }

  /** Codes and width of a text; characters that the font lacks are noted and take no room. */
  shape(text: string): ShapedText {
    const known = this.#shaped.get(text);
    if (known !== undefined) return known;
    let codes = '';
    let width = 0;
    // Composed form: the font draws "ó" as one glyph, and this layer places no separate accents.
    for (const character of text.normalize('NFC')) {
      const code = this.#codeOf(printed(character.codePointAt(0) ?? SPACE));
      if (code === undefined) {
        if (!this.#missing.has(character)) this.#missing.set(character, text);
        continue;
      }
      codes += code.hex;
      width += code.advance;
    }
    const shaped = { codes, width };
    this.#shaped.set(text, shaped);
    return shaped;
  }

  /** Width in points of a text at a type size in points. */
  width(text: string, size: number): number {
    return (this.shape(text).width * size) / 1000;
  }

  /** The characters of a text that this font cannot draw, each once, in order. Notes nothing. */
  lacking(text: string): string[] {
    const lacking = new Set<string>();
    for (const character of text.normalize('NFC')) {
      if (this.file.glyph(printed(character.codePointAt(0) ?? SPACE)) === undefined) lacking.add(character);
    }
    return [...lacking];
  }

  /** Every character used so far; the code of each is its place in this list plus one. */
  get used(): readonly UsedCharacter[] {
    return this.#used;
  }

  get missing(): readonly MissingCharacter[] {
    return [...this.#missing].map(([character, text]) => ({ character, text }));
  }

  #codeOf(codePoint: number): { readonly hex: string; readonly advance: number } | undefined {
    const known = this.#codes.get(codePoint);
    if (known !== undefined) return known;
    const glyph = this.file.glyph(codePoint);
    if (glyph === undefined) return undefined;
    this.#used.push({ codePoint, glyphId: glyph.id, advance: glyph.advance });
    const code = { hex: this.#used.length.toString(16).padStart(4, '0'), advance: glyph.advance };
    this.#codes.set(codePoint, code);
    return code;
  }
}

/** The two weights that every document is set in. */
export type Faces = { readonly regular: Typeface; readonly semibold: Typeface };

export type FontBytes = { readonly regular: Uint8Array; readonly semibold: Uint8Array };

/** Opens both weights. Throws on bytes that are not a font. */
export function openFaces(fonts: FontBytes): Faces {
  return { regular: new Typeface(fonts.regular, 'F1'), semibold: new Typeface(fonts.semibold, 'F2') };
}
