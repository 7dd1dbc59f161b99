/**
 * Before every page: the content security policy with a nonce of its own, so that no script runs that was not sent with
 * the page; and the page's address, so that a sign-in can lead back to it.
 */
import { randomBytes } from 'node:crypto';
import { type NextRequest, NextResponse } from 'next/server';

export const config = {
  matcher: [{ source: '/((?!_next/static|_next/image).*)' }],
};

const ATTACHED = /^(\/api\/v1)?\/(agreements|lots)\/[^/]+\/files\/[^/]+$/;

export function proxy(request: NextRequest): NextResponse {
  // What somebody attached is saved, never drawn: should a browser draw it all the same, it can do nothing.
  const isFile = ATTACHED.test(request.nextUrl.pathname);
  const policy = isFile ? "sandbox; default-src 'none'" : contentPolicy(randomBytes(16).toString('base64'));
  const headers = new Headers(request.headers);
  headers.set('content-security-policy', policy);
  headers.set('x-huskledger-path', request.nextUrl.pathname + request.nextUrl.search);
  const response = NextResponse.next({ request: { headers } });
  response.headers.set('content-security-policy', policy);
  return response;
}

function contentPolicy(nonce: string): string {
  // React's development build evaluates text and injects styles; the built program does neither.
  const isDevelopment = process.env.NODE_ENV === 'development';
  return [
    "default-src 'self'",
    `script-src 'self' 'nonce-${nonce}' 'strict-dynamic'${isDevelopment ? " 'unsafe-eval'" : ''}`,
    isDevelopment ? "style-src 'self' 'unsafe-inline'" : `style-src 'self' 'nonce-${nonce}'`,
    "worker-src 'self'",
    "img-src 'self' data: blob:",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join('; ');
}
