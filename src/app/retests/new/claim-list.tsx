/**
 * What can be questioned, each with its own field; and what cannot, with the reason and what is still possible.
 */
import type { Figures } from '../../../documents/figures.ts';
import type { Questionable } from '../../../usecases/retests/questionable.ts';
import type { AskView } from '../../../usecases/retests/read-ask.ts';
import { claimName } from '../claim-fields.ts';

export interface ClaimListProps {
  readonly view: AskView;
  readonly agreementId: string;
  /** The load that the reader came from. */
  readonly loadId: string | undefined;
  readonly figures: Figures;
  /** Names of samples or loads that the reader looks for. */
  readonly wanted: readonly string[];
}

/** More than so many are looked for by name. */
const MOST_SHOWN = 24;

export function ClaimList({ view, agreementId, loadId, figures, wanted }: ClaimListProps) {
  const { items, about } = view;
  const open = items.filter(({ obstacle }) => obstacle === undefined);
  const closed = items.filter(({ obstacle }) => obstacle !== undefined);
  const typed = new Set(view.claims.map(({ id }) => id));
  const isNear = ({ id, loads }: Questionable) =>
    loadId === undefined || typed.has(id) || loads.some((load) => load.id === loadId);
  const isWanted = ({ name, loads }: Questionable) =>
    wanted.includes(name) || loads.some(({ ticket }) => wanted.includes(ticket));
  const isMany = open.length > MOST_SHOWN;
  const near = open.filter(
    (item) => isWanted(item) || (isNear(item) && !(isMany && loadId === undefined && !typed.has(item.id))),
  );
  const others = isMany ? [] : open.filter((item) => !near.includes(item));
  const own = closed.filter(({ loads }) => loads.some(({ id }) => id === loadId));
  return (
    <>
      {own.map((item) => (
        <Closed key={item.id} item={item} isLead />
      ))}
      {open.length === 0 ? (
        <p>
          {items.length === 0
            ? 'No such figure is recorded yet.'
            : 'None of these figures can be questioned now.'}
        </p>
      ) : (
        <form action="/retests/new" method="get" className="record-form claims">
          <input type="hidden" name="agreement" value={agreementId} />
          <input type="hidden" name="about" value={about} />
          {loadId === undefined ? null : <input type="hidden" name="load" value={loadId} />}
          {isMany ? <Look wanted={wanted} count={open.length} /> : null}
          {near.map((item) => (
            <Claim key={item.id} item={item} view={view} figures={figures} />
          ))}
          {others.length === 0 ? null : (
            <details open={near.length === 0}>
              <summary>
                {near.length === 0
                  ? 'Figures that can be questioned'
                  : `Question others too (${others.length})`}
              </summary>
              {others.map((item) => (
                <Claim key={item.id} item={item} view={view} figures={figures} />
              ))}
            </details>
          )}
          <button type="submit" className={view.claims.length === 0 ? 'act' : 'quiet'}>
            {near.length === 0 ? 'Show these' : 'Show what it would mean'}
          </button>
        </form>
      )}
      {closed.length > own.length ? (
        <details>
          <summary>Cannot be questioned now ({closed.length - own.length})</summary>
          {closed
            .filter((item) => !own.includes(item))
            .map((item) => (
              <Closed key={item.id} item={item} />
            ))}
        </details>
      ) : null}
    </>
  );
}

/** Where there are too many to show, those that are looked for are named. */
function Look({ wanted, count }: { readonly wanted: readonly string[]; readonly count: number }) {
  return (
    <div className="field claim">
      <label htmlFor="claim-show">Tickets or samples</label>
      <p className="hint">{count} can be questioned. Name those that you doubt, with commas between them.</p>
      <input id="claim-show" type="text" name="show" defaultValue={wanted.join(', ')} />
    </div>
  );
}

interface ClaimProps {
  readonly item: Questionable;
  readonly view: AskView;
  readonly figures: Figures;
}

function Claim({ item, view, figures }: ClaimProps) {
  const { id, name, first, unit, laboratory, reportedOn, lastDay, loads } = item;
  const isWeight = view.about === 'weight';
  const claim = view.claims.find((one) => one.id === id);
  const field = `claim-${id}`;
  return (
    <div className="field claim">
      <h3 id={`${field}-what`}>
        {isWeight ? 'Load' : 'Sample'} {name}: {figures.show(first)} {unit}
      </h3>
      <p className="hint">
        {isWeight
          ? `Delivered on ${reportedOn}`
          : `Reported on ${reportedOn}${laboratory === null ? '' : ` by ${laboratory}`}`}
        , can be questioned until {lastDay}. {isWeight ? '' : standsFor(loads)}
      </p>
      <PartNotes item={item} />
      <label htmlFor={field} className="claim-own">
        Your own figure
      </label>
      <span className="with-unit">
        <input
          id={field}
          name={claimName(id)}
          type="text"
          inputMode="decimal"
          defaultValue={claim ? figures.show(claim.claimed) : ''}
          aria-invalid={claim?.wrong === undefined ? undefined : true}
          aria-describedby={claim?.wrong === undefined ? `${field}-what` : `${field}-what ${field}-wrong`}
        />{' '}
        {unit === '' ? null : <span className="unit">{unit}</span>}
      </span>
      {claim?.wrong === undefined ? null : (
        <p className="fault" id={`${field}-wrong`}>
          {claim.wrong}
        </p>
      )}
    </div>
  );
}

function standsFor(loads: Questionable['loads']): string {
  if (loads.length === 0) return 'No load names it.';
  if (loads.length === 1) return `It stands for load ${loads[0]?.ticket ?? ''}.`;
  const shown = loads.slice(0, 6).map(({ ticket }) => ticket);
  const more = loads.length - shown.length;
  return `It stands for ${loads.length} loads, and all of them follow: ${shown.join(', ')}${more > 0 ? ` and ${more} more` : ''}.`;
}

/** Parts that the method may need later, and that will not be there. */
function PartNotes({ item: { parts } }: { readonly item: Questionable }) {
  const kept = parts.filter(({ is, isFirst }) => is === 'kept' && isFirst);
  const gone = parts.filter(({ is, isFirst }) => is !== 'kept' && !isFirst);
  return (
    <>
      {kept.length === 0 ? null : (
        <p className="hint">
          Sealed and kept:{' '}
          {kept
            .map(
              ({ part, seal, keptUntil }) =>
                `the ${part}’s part, ${seal}${keptUntil === null ? '' : `, until ${keptUntil}`}`,
            )
            .join('; ')}
          .
        </p>
      )}
      {gone.length === 0 ? null : (
        <p className="hint">
          Should it come to the {gone.map(({ part }) => part).join(' and the ')}, there is no sealed part to
          test, and the fallback of your agreement applies.
        </p>
      )}
    </>
  );
}

function Closed({
  item: { name, obstacle, openId },
  isLead = false,
}: {
  readonly item: Questionable;
  readonly isLead?: boolean;
}) {
  return (
    <p className={isLead ? 'told' : undefined}>
      {name}: {obstacle?.message}
      {openId === undefined ? null : (
        <>
          {' '}
          <a href={`/retests/${openId}`}>Look at it</a>
        </>
      )}
    </p>
  );
}
