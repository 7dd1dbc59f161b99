/**
 * A file of a lot, to save: never shown within our own pages, whatever it holds. That a browser takes it for nothing else
 * is said for every answer in next.config.js, and that it may do nothing in proxy.ts.
 */
import { readFile } from '../../../../../usecases/lots/lot-files.ts';
import { answer } from '../../../../server/answer.ts';
import { currentContext } from '../../../../server/current-caller.ts';

export async function GET(
  _: Request,
  { params }: { readonly params: Promise<{ readonly id: string; readonly file: string }> },
): Promise<Response> {
  return await answer(async () => {
    const { id, file } = await params;
    const { name, kind, bytes } = await readFile(await currentContext(), { lotId: id, fileId: file });
    const plain = name.replace(/[^A-Za-z0-9. _-]+/g, '-');
    return new Response(Uint8Array.from(bytes), {
      headers: {
        'content-type': kind,
        'content-disposition': `attachment; filename="${plain}"; filename*=UTF-8''${encodeURIComponent(name).replace(/['()*]/g, escapeSign)}`,
        'cache-control': 'private, no-store',
      },
    });
  });
}

/** Signs that an address may hold and a header's value (RFC 8187) may not. */
function escapeSign(sign: string): string {
  return `%${sign.charCodeAt(0).toString(16).toUpperCase()}`;
}
