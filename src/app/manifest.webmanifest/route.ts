/**
 * What a phone needs to install the scale page: its name, where it begins, and an icon.
 */

const MANIFEST = {
  name: 'Huskledger scale',
  short_name: 'Scale',
  description: 'Weigh trucks, with or without a signal.',
  start_url: '/scale',
  scope: '/scale',
  display: 'standalone',
  background_color: '#f8f4ea',
  theme_color: '#f8f4ea',
  icons: [{ src: '/scale-icon.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any maskable' }],
};

export function GET(): Response {
  return Response.json(MANIFEST, { headers: { 'content-type': 'application/manifest+json' } });
}
