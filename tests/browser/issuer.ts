/**
 * An OpenID Connect issuer for the tests: it vouches at once for whoever it is told to, with a signed token as the
 * standard has it (OpenID Connect Core 1.0, authorization code flow).
 */
import { createSign, generateKeyPairSync, randomUUID } from 'node:crypto';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

export interface Vouched {
  readonly sub: string;
  readonly email?: string;
  readonly email_verified?: boolean;
}

export interface Issuer {
  readonly address: string;
  /** For whom it vouches from now on. */
  vouchFor: (who: Vouched) => void;
  readonly stop: () => Promise<void>;
}

export const CLIENT = { id: 'huskledger', secret: 'a secret between the two' };

export async function startIssuer(): Promise<Issuer> {
  const { privateKey, publicKey } = generateKeyPairSync('rsa', { modulusLength: 2048 });
  const nonces = new Map<string, string>();
  let who: Vouched = { sub: 'nobody' };
  let address = '';

  const part = (value: object) => Buffer.from(JSON.stringify(value)).toString('base64url');
  const idToken = (nonce: string) => {
    const now = Math.floor(Date.now() / 1000);
    const claims = { iss: address, aud: CLIENT.id, iat: now, exp: now + 300, nonce, ...who };
    const signed = `${part({ alg: 'RS256', kid: 'one', typ: 'JWT' })}.${part(claims)}`;
    return `${signed}.${createSign('RSA-SHA256').update(signed).sign(privateKey, 'base64url')}`;
  };
  const answer = async (request: IncomingMessage, response: ServerResponse) => {
    const url = new URL(request.url ?? '/', address);
    const json = (body: object) => {
      response.setHeader('content-type', 'application/json');
      response.end(JSON.stringify(body));
    };
    switch (url.pathname) {
      case '/.well-known/openid-configuration':
        return json({
          issuer: address,
          authorization_endpoint: `${address}/authorize`,
          token_endpoint: `${address}/token`,
          jwks_uri: `${address}/keys`,
          response_types_supported: ['code'],
          subject_types_supported: ['public'],
          id_token_signing_alg_values_supported: ['RS256'],
        });
      case '/keys':
        return json({
          keys: [{ ...publicKey.export({ format: 'jwk' }), kid: 'one', use: 'sig', alg: 'RS256' }],
        });
      case '/authorize': {
        const code = randomUUID();
        nonces.set(code, url.searchParams.get('nonce') ?? '');
        const back = new URL(url.searchParams.get('redirect_uri') ?? '');
        back.searchParams.set('code', code);
        back.searchParams.set('state', url.searchParams.get('state') ?? '');
        response.writeHead(302, { location: back.toString() });
        return response.end();
      }
      case '/token': {
        let text = '';
        for await (const piece of request) text += String(piece);
        const nonce = nonces.get(new URLSearchParams(text).get('code') ?? '');
        if (nonce === undefined) {
          response.statusCode = 400;
          return json({ error: 'invalid_grant' });
        }
        return json({ access_token: randomUUID(), token_type: 'Bearer', id_token: idToken(nonce) });
      }
      default:
        response.statusCode = 404;
        return response.end();
    }
  };
  const server = createServer((request, response) => void answer(request, response));
  await new Promise<void>((resolve) => server.listen(0, resolve));
  address = `http://localhost:${(server.address() as AddressInfo).port}`;
  return {
    address,
    vouchFor: (next) => {
      who = next;
    },
    stop: () => new Promise((resolve) => server.close(() => resolve())),
  };
}
