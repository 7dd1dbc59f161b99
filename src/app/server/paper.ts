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

/** Answers with a PDF. `?version=2` names a version; without it the newest is printed. */
export async function answerPaper(
  request: Request,
  print: (context: Context, asked: PaperAsked) => Promise<PrintedPaper>,
): Promise<Response> {
  return await answer(async () => {
    const context = await currentContext();
    fonts ??= readFonts();
    const version = versionIn(new URL(request.url).searchParams.get('version'));
    const { bytes, name } = await print(context, { fonts: await fonts, version });
    return new Response(Uint8Array.from(bytes), {
      headers: {
        'content-type': 'application/pdf',
        'content-disposition': `inline; filename="${name}.pdf"`,
        'cache-control': 'private, no-store',
      },
    });
  });
}

function versionIn(text: string | null): number | undefined {
  if (text === null || text === '') return undefined;
  if (/^[1-9]\d{0,5}$/.test(text)) return Number(text);
  throw new Refusal('not-found', 'There is no such version.');
}
