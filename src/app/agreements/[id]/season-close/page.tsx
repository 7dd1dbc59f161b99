/**
 * Closing a season: what is open still, what the season came to, the two signatures, and the seal.
 */
import { randomUUID } from 'node:crypto';
import { figuresFor } from '../../../../documents/figures.ts';
import { wordsOf } from '../../../../documents/season-close/closing-facts.ts';
import { mayDo } from '../../../../domain/parties/permissions.ts';
import { readAgreementWords } from '../../../../usecases/agreements/read-agreement-words.ts';
import { Refusal } from '../../../../usecases/refusal.ts';
import { type CloseView, readClose } from '../../../../usecases/season-close/read-close.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import type { Asked } from '../../../place/asked.ts';
import { withPartner } from '../../../place/partner-words.ts';
import { Told } from '../../../place/told.tsx';
import { notePartiesOf } from '../../../season-notes/note-fields.ts';
import { ask } from '../../../server/ask.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { toldBy } from '../../../server/told.ts';
import { drawUpClose, signSeason } from './close-actions.ts';
import { DifferencesPart } from './differences-part.tsx';
import { OpenPoints } from './open-points.tsx';
import { SeasonCameTo } from './season-came-to.tsx';
import { SeasonRulesPart } from './season-rules-part.tsx';

export const metadata = { title: 'Closing the season' };

export interface ClosePageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function ClosePage({ params, searchParams }: ClosePageProps) {
  const [{ id }, asked, locale] = [await params, await searchParams, await readerLocale()];
  const { agreement, view, maySign, mayNote } = await ask(async (context) => {
    const agreement = await readAgreementWords(context, { agreementId: id });
    if (agreement.side === 'adviser')
      throw new Refusal('not-found', 'A season is closed by its two parties.');
    return {
      agreement,
      view: await readClose(context, { agreementId: id }),
      maySign: mayDo(context.caller.role, 'sign'),
      mayNote: mayDo(context.caller.role, 'correct'),
    };
  });
  const told = await toldBy(asked);
  const figures = figuresFor(locale);
  return (
    <>
      <div className="title">
        <h1>Closing the season</h1>
        <p className="quiet-word">
          <a href={`/agreements/${id}`}>{withPartner(agreement)}</a>
        </p>
      </div>
      <Told told={told} />
      {view.seal ? (
        <Sealed agreementId={id} view={view} />
      ) : (
        <p className="hint">
          Both sides sign one statement. From then on nothing is recorded under this agreement any more; what
          comes later belongs to your next one. Compare{' '}
          <a href={`/agreements/${id}/own-list`}>your own list</a> with the record first.
        </p>
      )}
      <OpenPoints agreementId={id} view={view} words={wordsOf(view.statement, figures)} />
      <SeasonRulesPart agreementId={id} isSealed={view.seal !== undefined} locale={locale} />
      <DifferencesPart
        notes={view.differences}
        parties={notePartiesOf(agreement)}
        figures={figures}
        mayNote={mayNote && !view.seal}
      />
      <SeasonCameTo
        statement={view.statement}
        figures={figures}
        standing={view.seal ? 'sealed' : view.drawn && !view.drawn.isStale ? 'drawn up' : 'now'}
      />
      <p>
        <a href={`/agreements/${id}/season-close/pdf`}>Closing statement as PDF</a>
        {view.seal ? null : ' (not sealed yet, and the paper says so)'}
      </p>
      <Signatures view={view} />
      {view.seal || !maySign ? null : <Sign agreementId={id} view={view} />}
      {!view.seal && !maySign ? (
        <p className="hint">An owner of your party draws up and signs the statement.</p>
      ) : null}
    </>
  );
}

function Sealed({
  agreementId,
  view: { seal, later },
}: {
  readonly agreementId: string;
  readonly view: CloseView;
}) {
  if (!seal) return null;
  return (
    <section aria-labelledby="sealed">
      <h2 id="sealed">Sealed on {seal.on}</h2>
      <p>
        Nothing of this season can be recorded, changed or taken out any more. Keep the file with your papers.
      </p>
      <p className="hint">
        Root and Mark are two rows of signs that stand for the whole season as both of you signed it. They
        must be the same on both sides’ papers and in the saved file. Whoever keeps the program can check the
        file by <code>huskledger check-seal</code> with the file’s name, without the record.
      </p>
      <dl className="facts">
        <div>
          <dt>Root</dt>
          <Signs text={seal.root} />
        </div>
        <div>
          <dt>Mark</dt>
          <Signs text={seal.mark} />
        </div>
      </dl>
      <p>
        <a className="act-link" href={`/agreements/${agreementId}/season-close/file`}>
          Save the season’s file
        </a>
      </p>
      {later.length === 0 ? (
        <p className="hint">
          What it left over, and what turns out later, is taken up by your next agreement with each other.
        </p>
      ) : (
        <p>
          What it left over, and what turns out later, is taken up by{' '}
          {later.map(({ id, number }, index) => (
            <span key={id}>
              {index === 0 ? '' : ' or '}
              <a href={`/agreements/${id}/past-seasons`}>agreement {number}</a>
            </span>
          ))}
          .
        </p>
      )}
    </section>
  );
}

/** Where each group of the 64 signs begins. */
const GROUPS = Array.from({ length: 16 }, (_, group) => 4 * group);

/** In groups of four, as the paper has them; copied, it is one text. */
function Signs({ text }: { readonly text: string }) {
  return (
    <dd className="signs">
      {GROUPS.map((start) => (
        <span key={start}>{text.slice(start, start + 4)}</span>
      ))}
    </dd>
  );
}

function Signatures({ view: { drawn, seal } }: { readonly view: CloseView }) {
  if (!drawn) return null;
  return (
    <section aria-labelledby="signatures">
      <h2 id="signatures">Signatures</h2>
      {drawn.isStale ? (
        <p className="told">
          Something was recorded since the statement was drawn up, so that one can no longer be signed. Draw
          up a new one.
        </p>
      ) : null}
      <ul>
        {drawn.signatures.map(({ party, name, on }) => (
          <li key={party}>
            {name} for {party}, on {on}
          </li>
        ))}
      </ul>
      {seal || drawn.isStale || drawn.signatures.length === 2 ? null : (
        <p>{drawn.isOurs ? 'The other side has yet to sign it.' : 'Your side has yet to sign it.'}</p>
      )}
    </section>
  );
}

function Sign({ agreementId, view }: { readonly agreementId: string; readonly view: CloseView }) {
  const { drawn, inTheWay, points } = view;
  const name = {
    kind: 'text' as const,
    name: 'name',
    label: 'Your own name, as your signature',
    autoComplete: 'name',
  };
  if (drawn && !drawn.isStale && !drawn.signatures.some(({ isOurs }) => isOurs)) {
    return (
      <section aria-labelledby="sign">
        <h2 id="sign">Sign</h2>
        <p className="hint">With your signature the season is sealed. This cannot be taken back.</p>
        <RecordForm
          action={signSeason}
          submit="Sign, and seal the season"
          requestKey={randomUUID()}
          scope="sign"
          fields={[
            { kind: 'hidden', name: 'agreement', value: agreementId },
            { kind: 'hidden', name: 'close', value: drawn.id },
            { kind: 'hidden', name: 'fingerprint', value: drawn.fingerprint },
            name,
          ]}
        />
      </section>
    );
  }
  if (inTheWay.length > 0 || (drawn && !drawn.isStale)) return null;
  return (
    <section aria-labelledby="draw-up">
      <h2 id="draw-up">Draw it up and sign</h2>
      <p className="hint">
        The other side reads the same figures, and seals the season by its own signature. What is carried over
        goes on under your next agreement, each document due when it was; a discount for paying early does not
        go along.
      </p>
      <RecordForm
        action={drawUpClose}
        submit="Draw up the statement and sign it"
        requestKey={randomUUID()}
        scope="draw-up"
        fields={[
          { kind: 'hidden', name: 'agreement', value: agreementId },
          ...(points.length === 0
            ? []
            : [
                {
                  kind: 'checks' as const,
                  name: 'carries',
                  label: 'What is open still',
                  options: [
                    {
                      value: 'over',
                      label:
                        'Carry it over: your next agreement takes it up, or the two of you settle it otherwise',
                    },
                  ],
                  ticked: [],
                },
              ]),
          name,
        ]}
      />
    </section>
  );
}
