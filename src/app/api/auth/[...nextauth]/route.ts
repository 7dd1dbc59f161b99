/**
 * next-auth's own addresses: the way back from an OpenID Connect provider, and signing in for other programs.
 */
import type { NextRequest } from 'next/server';
import NextAuth from 'next-auth';
import { authOptions } from '../../../server/auth-options.ts';

interface Given {
  readonly params: Promise<{ readonly nextauth: string[] }>;
}

async function handle(request: NextRequest, given: Given): Promise<Response> {
  return await NextAuth(request, given, await authOptions());
}

export { handle as GET, handle as POST };
