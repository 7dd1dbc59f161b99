/**
 * A PDF being written: pages are added one after another, then the whole is finished into bytes.
 * The same calls give the same bytes: the date comes from the caller, and nothing is drawn from chance.
 */
import { PDFContext, PDFHexString, type PDFRef, PDFStreamWriter, PDFString } from 'pdf-lib';
import { embedTypeface } from './embed-typeface.ts';
import type { PageInk } from './page-ink.ts';
import type { Paper } from './paper.ts';
import type { Faces, MissingCharacter } from './typeface.ts';

export interface DocumentFacts {
  readonly title: string;
  /** A language tag such as "en-US"; readers that speak choose their voice by it. */
  readonly language: string;
  /** Date and time, ISO 8601 with an offset. */
  readonly createdOn: string;
  readonly paper: Paper;
  readonly faces: Faces;
}

export type PdfOutcome = { readonly bytes: Uint8Array } | { readonly missing: readonly MissingCharacter[] };

function creationDate(iso: string): PDFString {
  const date = new Date(iso);
  if (Number.isNaN(date.getTime()))
    throw new RangeError(`createdOn is not an ISO 8601 date and time: ${iso}`);
  return PDFString.fromDate(date);
}

export class PdfDocument {
  readonly #facts: DocumentFacts;
  readonly #context = PDFContext.create();
  readonly #pageTree: PDFRef;
  readonly #resources: PDFRef;
  readonly #pages: PDFRef[] = [];

  constructor(facts: DocumentFacts) {
    this.#facts = facts;
    this.#pageTree = this.#context.nextRef();
    this.#resources = this.#context.nextRef();
  }

  /** Adds a page with what was drawn on it. */
  addPage(ink: PageInk): void {
    const { width, height } = this.#facts.paper;
    const contents = this.#context.register(this.#context.flateStream(ink.finish()));
    const page = this.#context.obj({
      Type: 'Page',
      Parent: this.#pageTree,
      MediaBox: [0, 0, width, height],
      Resources: this.#resources,
      Contents: contents,
    });
    this.#pages.push(this.#context.register(page));
  }

  /** The document's bytes, or, where a font lacked a character, which ones and in what text. */
  async finish(): Promise<PdfOutcome> {
    const context = this.#context;
    const { faces, title, language, createdOn } = this.#facts;
    const missing = [...faces.regular.missing, ...faces.semibold.missing];
    if (missing.length > 0) return { missing };
    const fonts: Record<string, PDFRef> = {};
    for (const face of [faces.regular, faces.semibold]) {
      if (face.used.length > 0) fonts[face.resource] = embedTypeface(context, face);
    }
    context.assign(this.#resources, context.obj({ Font: fonts }));
    context.assign(
      this.#pageTree,
      context.obj({ Type: 'Pages', Kids: this.#pages, Count: this.#pages.length }),
    );
    context.trailerInfo.Root = context.register(
      context.obj({
        Type: 'Catalog',
        Pages: this.#pageTree,
        Lang: PDFHexString.fromText(language),
        ViewerPreferences: { DisplayDocTitle: true },
      }),
    );
    const date = creationDate(createdOn);
    context.trailerInfo.Info = context.register(
      context.obj({
        Title: PDFHexString.fromText(title),
        Producer: PDFHexString.fromText('Huskledger'),
        CreationDate: date,
        ModDate: date,
      }),
    );
    const bytes = await PDFStreamWriter.forContext(context, Number.POSITIVE_INFINITY).serializeToBuffer();
    return { bytes };
  }
}
