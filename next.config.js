/**
 * How Next builds and serves the pages. Nothing here reaches out to the network.
 */

// Next would otherwise report its own use to its makers.
process.env.NEXT_TELEMETRY_DISABLED = '1';

/** On every answer; the content security policy, which carries a nonce, is set in src/proxy.ts. */
const SECURITY_HEADERS = [
  { key: 'X-Content-Type-Options', value: 'nosniff' },
  { key: 'X-Frame-Options', value: 'DENY' },
  // Invitations travel in addresses: no other site must learn them. Forms still need their own origin.
  { key: 'Referrer-Policy', value: 'same-origin' },
  { key: 'Permissions-Policy', value: 'camera=(), microphone=(), geolocation=()' },
  { key: 'Cross-Origin-Opener-Policy', value: 'same-origin' },
  { key: 'Cross-Origin-Resource-Policy', value: 'same-origin' },
];

/** @type {import('next').NextConfig} */
export default {
  agentRules: false,
  devIndicators: false,
  poweredByHeader: false,
  reactStrictMode: true,
  // `npm run typecheck` checks the whole repository. Next writes its own wishes into a file of its own.
  typescript: { ignoreBuildErrors: true, tsconfigPath: 'tsconfig.next.json' },
  experimental: {
    authInterrupts: true,
    // A laboratory's report has at most 10 MB; a form has a little around it.
    serverActions: { bodySizeLimit: '11mb' },
    proxyClientMaxBodySize: '11mb',
  },
  serverExternalPackages: [
    'nodemailer',
    '@electric-sql/pglite',
    '@electric-sql/pglite-socket',
    '@expo-google-fonts/source-sans-3',
    '@node-rs/argon2',
    '@prisma/adapter-pg',
    '@prisma/client',
    'fontkit',
    'pdf-lib',
    'pg',
  ],
  headers: async () => [{ source: '/:path*', headers: SECURITY_HEADERS }],
};
