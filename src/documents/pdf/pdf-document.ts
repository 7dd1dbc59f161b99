/**
 * A PDF being written: pages are added one after another, then the whole is finished into bytes.
 * The same calls give the same bytes: the date comes from the caller, and nothing is drawn from chance.
 */
import {
  AFRelationship,
  FileEmbedder,
  PDFContext,
  PDFHexString,
  type PDFRef,
  PDFStreamWriter,
  PDFString,
} from 'pdf-lib';
import { embedTypeface } from './embed-typeface.ts';
import type { PageInk } from './page-ink.ts';
import type { Paper } from './paper.ts';
import type { Faces, MissingCharacter } from './typeface.ts';

export interface DocumentFacts {
  readonly title: string;
  /** A language tag such as "en-US"; readers that speak choose their voice by it. */
  readonly language: string;
  /** Date and time, ISO 8601 with an offset; the document carries no date where there is none. */
  readonly createdOn?: string | undefined;
  readonly paper: Paper;
  readonly faces: Faces;
}

/** A file inside the document, which its readers can save as it was. */
export interface Attachment {
  /** ASCII. */
  readonly name: string;
  readonly mimeType: string;
  readonly description: string;
  readonly bytes: Uint8Array;
}

export type PdfOutcome = { readonly bytes: Uint8Array } | { readonly missing: readonly MissingCharacter[] };

function dateOf(iso: string): Date {
  const date = new Date(iso);
  if (Number.isNaN(date.getTime()))
    throw new RangeError(`createdOn is not an ISO 8601 date and time: ${iso}`);
  return date;
}

function bothDates(iso: string): Record<string, PDFString> {
  const date = PDFString.fromDate(dateOf(iso));
  return { CreationDate: date, ModDate: date };
}

export class PdfDocument {
  readonly #facts: DocumentFacts;
  readonly #context = PDFContext.create();
  readonly #pageTree: PDFRef;
  readonly #resources: PDFRef;
  readonly #pages: PDFRef[] = [];
  readonly #attachments: Attachment[] = [];

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

  /** Adds a file that the pages were made from, byte for byte. */
  attach(attachment: Attachment): void {
    this.#attachments.push(attachment);
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
        ...(await this.#attached()),
      }),
    );
    context.trailerInfo.Info = context.register(
      context.obj({
        Title: PDFHexString.fromText(title),
        Producer: PDFHexString.fromText('Huskledger'),
        ...(createdOn === undefined ? {} : bothDates(createdOn)),
      }),
    );
    const bytes = await PDFStreamWriter.forContext(context, Number.POSITIVE_INFINITY).serializeToBuffer();
    return { bytes };
  }

  /** The catalogue's entries for the attachments; none where there are none. */
  async #attached(): Promise<Record<string, unknown>> {
    if (this.#attachments.length === 0) return {};
    const { createdOn } = this.#facts;
    const date = createdOn === undefined ? undefined : dateOf(createdOn);
    const names: (PDFHexString | PDFRef)[] = [];
    const files: PDFRef[] = [];
    // The format wants the names in order.
    for (const { name, bytes, mimeType, description } of this.#attachments.toSorted((a, b) =>
      a.name < b.name ? -1 : 1,
    )) {
      const embedder = FileEmbedder.for(bytes, name, {
        mimeType,
        description,
        ...(date === undefined ? {} : { creationDate: date, modificationDate: date }),
        afRelationship: AFRelationship.Source,
      });
      const file = await embedder.embedIntoContext(this.#context);
      names.push(PDFHexString.fromText(name), file);
      files.push(file);
    }
    return { Names: { EmbeddedFiles: { Names: names } }, AF: files };
  }
}
