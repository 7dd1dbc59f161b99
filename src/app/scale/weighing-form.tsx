/**
 * The weighing itself: truck, gross, tare, done, next. What is typed is saved on the phone at once, whether or not there
 * is a signal.
 */
'use client';

import { useId, useState } from 'react';
import { type UsualTruck, weighingDoubts } from '../../domain/deliveries/weighing-doubts.ts';
import { Asked } from './asked.tsx';
import type { DeskAgreement, DeskScale, DeskWeighing } from './desk.ts';
import type { Entry, EntryKind } from './entry.ts';
import { EMPTY, followingTicket, plainWeight, rowOf, type Typed, whatIsMissing } from './typed.ts';
import { Field, type FieldProps, UnitChoice } from './weighing-inputs.tsx';

export interface WeighingFormProps {
  readonly partyId: string;
  readonly agreement: DeskAgreement;
  readonly scales: readonly DeskScale[];
  /** Tickets that stand on the phone already. */
  readonly taken: readonly string[];
  readonly onSave: (entry: Entry) => Promise<void>;
}

export function WeighingForm({ partyId, agreement, scales, taken, onSave }: WeighingFormProps) {
  const [typed, setTyped] = useState<Typed>(() => fresh(agreement, { taken }));
  const [doubts, setDoubts] = useState<readonly string[]>([]);
  const [missing, setMissing] = useState<string>();
  const [last, setLast] = useState<string>();
  // What was weighed since the page came; without a signal the record cannot say.
  const [weighedIn, setWeighedIn] = useState<readonly DeskWeighing[]>([]);
  const [weighedOut, setWeighedOut] = useState<readonly string[]>([]);
  const stillFull = [...agreement.open, ...weighedIn].filter(
    ({ ticket }, index, all) =>
      !weighedOut.includes(ticket) && all.findIndex((other) => other.ticket === ticket) === index,
  );
  const id = useId();
  const set = (changed: Partial<Typed>) => {
    setTyped((before) => ({ ...before, ...changed }));
    setDoubts([]);
    setMissing(undefined);
  };
  const truck = agreement.trucks.find((known) => known.truck === typed.truck);
  const open = stillFull.find(({ ticket }) => ticket === typed.opened);
  // The usual weights are in the agreement's unit, and say nothing of a weight typed in another.
  const usual: UsualTruck | undefined =
    truck && typed.unit === agreement.unit ? { tare: truck.usualTare, net: truck.usualNet } : undefined;

  const save = async (isConfirmed: boolean) => {
    const fault = whatIsMissing(typed, { agreement, taken, now: Date.now() });
    setMissing(fault);
    if (fault !== undefined) return;
    const found = isConfirmed ? [] : weighingDoubts({ ...weights(typed), unit: typed.unit, usual });
    setDoubts(found);
    if (found.length > 0) return;
    const { photo } = typed;
    await onSave({
      id: crypto.randomUUID(),
      party: partyId,
      agreementId: agreement.id,
      kind: kindOf(typed),
      row: rowOf(typed, { agreement, now: Date.now() }),
      savedAt: Date.now(),
      isConfirmed,
      ...(photo === undefined ? {} : { photo }),
    });
    if (kindOf(typed) === 'weigh-in') setWeighedIn((before) => [...before, weighingOf(typed)]);
    if (kindOf(typed) === 'weigh-out') setWeighedOut((before) => [...before, typed.opened]);
    const weighed = typed.opened === '' ? typed.ticket.trim() : last;
    setLast(weighed);
    setTyped({
      ...fresh(agreement, { last: weighed, taken }),
      unit: typed.unit,
      scale: typed.scale,
      weigher: typed.weigher,
    });
  };

  const field = (name: keyof Typed & string, label: string, more: Partial<FieldProps> = {}) => (
    <Field
      id={`${id}-${name}`}
      label={label}
      value={String(typed[name] ?? '')}
      onChange={(value) => set({ [name]: value })}
      {...more}
    />
  );
  return (
    <form
      className="scale-form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void save(false);
      }}
    >
      {stillFull.length === 0 ? null : (
        <label className="field" htmlFor={`${id}-opened`}>
          <span>Weighed full before, now empty</span>
          <select
            id={`${id}-opened`}
            value={typed.opened}
            onChange={(event) =>
              set({
                ...(opened(stillFull, event.target.value) ?? fresh(agreement, { last, taken })),
                scale: typed.scale,
              })
            }
          >
            <option value="">A new truck</option>
            {stillFull.map((weighing) => (
              <option key={weighing.ticket} value={weighing.ticket}>
                {weighing.ticket}
                {weighing.truck === null ? '' : `, truck ${weighing.truck}`}, gross {weighing.gross}{' '}
                {weighing.unit}
              </option>
            ))}
          </select>
        </label>
      )}
      {open ? null : (
        <div className="field-row">
          <Field
            id={`${id}-truck`}
            label="Truck"
            value={typed.truck}
            suggestions={agreement.trucks.map((known) => known.truck)}
            onChange={(value) => set(withUsual(agreement, { ...typed, truck: value }))}
          />
          {field('ticket', 'Ticket')}
        </div>
      )}
      {open ? null : field('gross', 'Gross', { isLarge: true, unit: typed.unit })}
      {typed.isTareLater && !open ? null : field('tare', 'Tare', { isLarge: true, unit: typed.unit })}
      {open ? null : (
        <label className="option" htmlFor={`${id}-later`}>
          <input
            id={`${id}-later`}
            type="checkbox"
            checked={typed.isTareLater}
            onChange={(event) => set({ isTareLater: event.target.checked, tare: '' })}
          />
          Tare later
        </label>
      )}
      {agreement.distance === null || (typed.isTareLater && !open)
        ? null
        : field('distance', 'Hauled', { unit: agreement.distance })}
      {agreement.testsNeeded && !open ? (
        <label className="option" htmlFor={`${id}-sampled`}>
          <input
            id={`${id}-sampled`}
            type="checkbox"
            checked={typed.isSampled}
            onChange={(event) => set({ isSampled: event.target.checked })}
          />
          Sample taken
        </label>
      ) : null}
      {typed.isSampled && !open ? field('sample', 'Its name or seal', { hint: sampleHint(agreement) }) : null}
      <details className="more-fields">
        <summary>Unit, scale, time, moisture, photo</summary>
        <div className="fields">
          {open ? null : <UnitChoice id={id} value={typed.unit} onChange={(unit) => set({ unit })} />}
          {scales.length === 0 ? null : (
            <label className="field" htmlFor={`${id}-scale`}>
              <span>Scale</span>
              <select
                id={`${id}-scale`}
                value={typed.scale}
                onChange={(event) => set({ scale: event.target.value })}
              >
                <option value="">Not named</option>
                {scales.map((scale) => (
                  <option key={scale.id} value={scale.id}>
                    {scale.name}
                    {scale.doubt === null ? '' : ` (${scale.doubt})`}
                  </option>
                ))}
              </select>
            </label>
          )}
          {field('time', 'Time, if not now', { type: 'datetime-local' })}
          {open ? null : field('moisture', 'Moisture by hand meter', { unit: '%' })}
          {field('weigher', 'Weigher')}
          {open ? null : field('plate', 'Plate')}
          <label className="field" htmlFor={`${id}-photo`}>
            <span>Photo of the ticket</span>
            <input
              id={`${id}-photo`}
              type="file"
              accept="image/jpeg,image/png"
              capture="environment"
              onChange={(event) => set({ photo: event.target.files?.[0] })}
            />
          </label>
        </div>
      </details>
      {missing === undefined ? null : (
        <p className="fault" role="alert">
          {missing}
        </p>
      )}
      {doubts.length === 0 ? (
        <button type="submit" className="act">
          {buttonWords(typed)}
        </button>
      ) : (
        <Asked doubts={doubts} onYes={() => void save(true)} onNo={() => setDoubts([])} />
      )}
    </form>
  );
}

/** An empty form, with the ticket that comes next where the numbers are of a series. */
function fresh(
  { unit, nextTicket }: DeskAgreement,
  { last, taken }: { readonly last?: string | undefined; readonly taken: readonly string[] },
): Typed {
  const ticket = nextTicket === null ? '' : followingTicket(nextTicket, { last, taken });
  return { ...EMPTY, unit, ticket };
}

/** What the phone knows of a truck that is weighed empty now. */
function opened(stillFull: readonly DeskWeighing[], ticket: string): Typed | undefined {
  const weighing = stillFull.find((known) => known.ticket === ticket);
  if (!weighing) return undefined;
  const { truck, gross, unit } = weighing;
  return { ...EMPTY, opened: ticket, ticket, truck: truck ?? '', gross, unit };
}

/** A truck that was weighed full just now. */
function weighingOf({ ticket, truck, gross, unit }: Typed): DeskWeighing {
  return {
    ticket: ticket.trim(),
    truck: truck.trim() === '' ? null : truck.trim(),
    gross: plainWeight(gross, unit),
    unit,
  };
}

/** A known truck brings its usual tare and plate. */
function withUsual({ trucks, unit }: DeskAgreement, typed: Typed): Typed {
  const known = trucks.find(({ truck }) => truck === typed.truck);
  if (!known) return typed;
  const usualTare = typed.unit === unit ? (known.usualTare ?? '') : '';
  return {
    ...typed,
    plate: known.plate ?? typed.plate,
    tare: typed.isTareLater || typed.tare !== '' ? typed.tare : usualTare,
  };
}

function weights({ gross, tare, unit, isTareLater, opened: of }: Typed) {
  return {
    gross: plainWeight(gross, unit),
    tare: isTareLater && of === '' ? undefined : plainWeight(tare, unit),
  };
}

function kindOf({ isTareLater, opened: of }: Typed): EntryKind {
  if (of !== '') return 'weigh-out';
  return isTareLater ? 'weigh-in' : 'load';
}

function buttonWords(typed: Typed): string {
  switch (kindOf(typed)) {
    case 'load':
      return 'Save this load';
    case 'weigh-in':
      return 'Save the gross';
    case 'weigh-out':
      return 'Save the tare';
  }
}

function sampleHint({ sampling }: DeskAgreement): string {
  switch (sampling) {
    case 'per-load':
      return 'Left empty, it is called as the ticket.';
    case 'per-day':
      return 'Left empty, it is the sample of the day.';
    case 'composite':
      return 'One sample stands for several loads: name it as on the bag.';
  }
}
