/**
 * A file to save, that a party brought or that was written for it: never shown within our own pages, whatever it holds. That a browser takes it for
 * nothing else is said for every answer in next.config.js, and that it may do nothing in proxy.ts.
 */

/** The file as an attachment, under its own name (RFC 6266, RFC 8187). */
export function fileResponse({
  name,
  kind,
  bytes,
}: {
  readonly name: string;
  readonly kind: string;
  readonly bytes: Uint8Array;
}): Response {
  const plain = name.replace(/[^A-Za-z0-9. _-]+/g, '-');
  const coded = encodeURIComponent(name).replace(/['()*]/g, escapeSign);
  return new Response(Uint8Array.from(bytes), {
    headers: {
      'content-type': kind,
      'content-disposition': `attachment; filename="${plain}"; filename*=UTF-8''${coded}`,
      'cache-control': 'private, no-store',
    },
  });
}

/** A text that was written for the reader, to save. */
export function textFile(
  { text, name }: { readonly text: string; readonly name: string },
  kind: string,
): Response {
  return fileResponse({ name, kind, bytes: new TextEncoder().encode(text) });
}

/** Signs that an address may hold and a header's value may not. */
function escapeSign(sign: string): string {
  return `%${sign.charCodeAt(0).toString(16).toUpperCase()}`;
}
