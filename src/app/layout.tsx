/**
 * The frame of every page: the product's name, the places, who is signed in for which party, and the fills of the strips.
 */
import './look/fonts.css';
import './look/ground.css';
import './look/frame.css';
import './look/forms.css';
import './look/loads.css';
import './look/corrections.css';
import './look/samples.css';
import './look/scale.css';
import './look/stair.css';
import './look/builder.css';
import './look/advice.css';
import './look/worth.css';
import './look/lots.css';
import './look/offers.css';
import './look/progress.css';
import './look/money.css';
import './look/payments.css';
import './look/retests.css';
import './look/meetings.css';
import './look/season.css';
import type { Metadata, Viewport } from 'next';
import type { ReactNode } from 'react';
import { countNews } from '../usecases/notices/read-notices.ts';
import { PlaceHeader } from './place/place-header.tsx';
import { currentContext, currentMembership, currentSession } from './server/current-caller.ts';
import { HatchPatterns } from './strip/hatch-patterns.tsx';

/** Every page is somebody's own: none is made when the program is built. */
export const dynamic = 'force-dynamic';

export const metadata: Metadata = {
  title: { default: 'Huskledger', template: '%s · Huskledger' },
  description:
    'The record that a corn grower and a dairy share: every truckload, priced by the agreed formula.',
  robots: { index: false, follow: false },
};

export const viewport: Viewport = {
  width: 'device-width',
  initialScale: 1,
  themeColor: [
    { media: '(prefers-color-scheme: light)', color: '#f8f4ea' },
    { media: '(prefers-color-scheme: dark)', color: '#1c1915' },
  ],
};

export default async function RootLayout({ children }: { readonly children: ReactNode }) {
  const session = await currentSession();
  const membership = session && (await currentMembership(session));
  const news = membership ? await countNews(await currentContext()) : 0;
  return (
    <html lang="en">
      <body>
        <a className="skip" href="#page">
          To the page
        </a>
        <HatchPatterns />
        <PlaceHeader session={session} membership={membership} news={news} />
        <main id="page">{children}</main>
      </body>
    </html>
  );
}
