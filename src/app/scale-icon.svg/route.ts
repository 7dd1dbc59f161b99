/**
 * The icon of the scale page: a load strip, as the product draws every load.
 */

const ICON = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 512 512">
<rect width="512" height="512" fill="#f8f4ea"/>
<g stroke="#1f1a14" stroke-width="10">
<rect x="86" y="196" width="120" height="120" fill="#9fb4c0"/><rect x="206" y="196" width="110" height="120" fill="#e8c34a"/>
<rect x="316" y="196" width="60" height="120" fill="#7f9a57"/><rect x="376" y="196" width="50" height="120" fill="#a07850"/>
</g></svg>`;

export function GET(): Response {
  return new Response(ICON, {
    headers: { 'content-type': 'image/svg+xml', 'cache-control': 'public, max-age=86400' },
  });
}
