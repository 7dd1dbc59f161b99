/**
 * Corrections after settlement: what waits for you first, with what it would mean in money.
 */
import { mayDo } from '../../domain/parties/permissions.ts';
import { readCorrectionList } from '../../usecases/corrections/read-correction-list.ts';
import type { Asked } from '../place/asked.ts';
import { Told } from '../place/told.tsx';
import { ask } from '../server/ask.ts';
import { readerLocale } from '../server/current-caller.ts';
import { toldBy } from '../server/told.ts';
import { CorrectionItem } from './correction-item.tsx';

export const metadata = { title: 'Corrections' };

export default async function CorrectionsPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const locale = await readerLocale();
  const { corrections, mayAnswer } = await ask(async (context) => ({
    corrections: await readCorrectionList(context, { locale }),
    mayAnswer: mayDo(context.caller.role, 'correct'),
  }));
  const told = await toldBy(await searchParams);
  const open = corrections.filter(({ answer }) => answer === null);
  const yours = open.filter(({ isOurs }) => !isOurs);
  const ended = corrections.filter(({ answer }) => answer !== null);
  return (
    <>
      <h1>Corrections</h1>
      <Told told={told} />
      <p>{standing(yours.length, open.length)}</p>
      <p className="hint">
        Before a load has settled, a ticket, result or price is put right on the load’s own page. Afterwards
        both sides must agree, and what stood before stays to be read.
      </p>
      <Items
        title="Open"
        corrections={[...yours, ...open.filter(({ isOurs }) => isOurs)]}
        mayAnswer={mayAnswer}
      />
      <Items title="Ended" corrections={ended.toReversed()} mayAnswer={false} />
    </>
  );
}

function standing(yours: number, open: number): string {
  if (yours === 1) return 'One correction waits for your answer.';
  if (yours > 1) return `${yours} corrections wait for your answer.`;
  if (open > 0) return 'Nothing waits for you; the other side has yet to answer.';
  return 'No correction is open.';
}

function Items(props: {
  readonly title: string;
  readonly corrections: Awaited<ReturnType<typeof readCorrectionList>>;
  readonly mayAnswer: boolean;
}) {
  const { title, corrections, mayAnswer } = props;
  if (corrections.length === 0) return null;
  return (
    <section aria-labelledby={`corrections-${title}`}>
      <h2 id={`corrections-${title}`}>{title}</h2>
      <ul className="corrections">
        {corrections.map((correction) => (
          <CorrectionItem key={correction.id} correction={correction} mayAnswer={mayAnswer} />
        ))}
      </ul>
    </section>
  );
}
