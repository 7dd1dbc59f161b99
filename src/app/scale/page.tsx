/**
 * The scale operator's page. It can be installed on a phone, and works with no signal.
 */
import { readScaleDesk } from '../../usecases/loads/read-scale-desk.ts';
import { ask } from '../server/ask.ts';
import { ScaleDesk } from './scale-desk.tsx';

export const metadata = { title: 'Weigh', manifest: '/manifest.webmanifest' };

export default async function ScalePage() {
  const desk = await ask(readScaleDesk);
  return (
    <div className="narrow weighing">
      <h1>Weigh</h1>
      <ScaleDesk desk={desk} />
      <p className="links">
        <a href="/scales">Scales and their tests</a>
      </p>
      <noscript>
        <p>
          This page needs scripts. <a href="/loads/new">Weigh a load</a> works without them, with a signal.
        </p>
      </noscript>
    </div>
  );
}
