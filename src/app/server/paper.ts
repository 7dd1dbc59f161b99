/**
 * Papers over HTTP: the typeface is read once, the bytes are nobody's but the reader's, and an address may name a version.
 */
import { readFonts } from '../../files/read-fonts.ts';
import type { PrintedPaper } from '../../usecases/agreements/render-paper.ts';
import type { Context } from '../../usecases/context.ts';
import { Refusal } from '../../usecases/refusal.ts';
import { answer } from './answer.ts';
import { currentContext } from './current-caller.ts';

type Fonts = Awaited<ReturnType<typeof readFonts>>;
let fonts: Promise<Fonts> | undefined;

export interface PaperAsked {
  readonly fonts: Fonts;
  readonly version: number | undefined;
}

/** What `print` makes, as a PDF that a browser shows; what cannot stand in a header's file name becomes a dash. */
export async function pdfResponse(print: (fonts: Fonts) => Promise<PrintedPaper>): Promise<Response> {
  fonts ??= readFonts();
  const { bytes, name } = await print(await fonts);
  return new Response(Uint8Array.from(bytes), {
    headers: {
      'content-type': 'application/pdf',
      'content-disposition': `inline; filename="${name.replace(/[^A-Za-z0-9.-]+/g, '-')}.pdf"`,
      'cache-control': 'private, no-store',
    },
  });
}

/** Answers with a PDF. `?version=2` names a version; without it the newest is printed. */
export async function answerPaper(
  request: Request,
  print: (context: Context, asked: PaperAsked) => Promise<PrintedPaper>,
): Promise<Response> {
  return await answer(async () => {
    const context = await currentContext();
    const version = versionIn(new URL(request.url).searchParams.get('version'));
    return await pdfResponse((read) => print(context, { fonts: read, version }));
  });
}

function versionIn(text: string | null): number | undefined {
  if (text === null || text === '') return undefined;
  if (/^[1-9]\d{0,5}$/.test(text)) return Number(text);
  throw new Refusal('not-found', 'There is no such version.');
}
