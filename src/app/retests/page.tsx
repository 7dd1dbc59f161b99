/**
 * Questions about weights and results: what waits for the reader first, then the open ones, then how others ended.
 */
import { mayDo } from '../../domain/parties/permissions.ts';
import { type RetestItem, type RetestList, readRetestList } from '../../usecases/retests/read-retest-list.ts';
import { type Asked, askedText } from '../place/asked.ts';
import { Told } from '../place/told.tsx';
import { ask } from '../server/ask.ts';
import { readerLocale } from '../server/current-caller.ts';
import { toldBy } from '../server/told.ts';

export const metadata = { title: 'Questions' };

export default async function RetestsPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const [asked, locale] = [await searchParams, await readerLocale()];
  const agreementId = askedText(asked, 'agreement');
  const { list, mayAsk } = await ask(async (context) => ({
    list: await readRetestList(context, { locale, agreementId }),
    mayAsk: mayDo(context.caller.role, 'question'),
  }));
  const told = await toldBy(asked);
  const { items, askable } = list;
  const [yours, open, over] = [
    items.filter(({ forYou }) => forYou !== undefined),
    items.filter(({ forYou, isOver }) => forYou === undefined && !isOver),
    items.filter(({ isOver }) => isOver),
  ];
  return (
    <>
      <h1>Questions</h1>
      <Told told={told} />
      <p className="hint">
        A weight or a laboratory’s figure that one side doubts is decided by the rule of your agreement. While
        a question is open, only the difference is held; everything else stays due.
      </p>
      {items.length === 0 ? <p>No figure is questioned{mayAsk ? '' : ' yet'}.</p> : null}
      {mayAsk ? <Askable askable={askable} isEmpty={items.length === 0} /> : null}
      <Items title="Waiting for you" items={yours} />
      <Items title="Open" items={open} />
      <Items title="Ended" items={over} />
      {items.length === 0 ? null : (
        <p>
          <a className="plain-link" href="/retests/patterns">
            Patterns: which laboratories and scales differ
          </a>
        </p>
      )}
    </>
  );
}

function Askable({
  askable,
  isEmpty,
}: {
  readonly askable: RetestList['askable'];
  readonly isEmpty: boolean;
}) {
  if (askable.length === 0) {
    return isEmpty ? (
      <p>
        None of your agreements says how a question is decided. Both sides can amend one to say so, under
        “Questions and retests” of its formula.
      </p>
    ) : null;
  }
  return (
    <ul className="pick">
      {askable.map(({ id, number, partner }) => (
        <li key={id}>
          <a className="act-link" href={`/retests/new?agreement=${id}`}>
            Question a figure{askable.length > 1 ? `: ${number}, ${partner}` : ''}
          </a>
        </li>
      ))}
    </ul>
  );
}

function Items({ title, items }: { readonly title: string; readonly items: readonly RetestItem[] }) {
  if (items.length === 0) return null;
  return (
    <section aria-labelledby={`retests-${title}`}>
      <h2 id={`retests-${title}`}>{title}</h2>
      <ul className="corrections">
        {items.map((item) => (
          <Item key={item.id} item={item} />
        ))}
      </ul>
    </section>
  );
}

function Item({ item }: { readonly item: RetestItem }) {
  const {
    id,
    what,
    agreement,
    partner,
    isOurs,
    first,
    claimed,
    askedOn,
    held,
    currency,
    standing,
    dueOn,
    value,
  } = item;
  return (
    <li className="correction">
      <h3>
        <a href={`/retests/${id}`}>{what}</a>
      </h3>
      <p className="quiet-word">
        Agreement {agreement} with {partner}, asked on {askedOn} by {isOurs ? 'your side' : partner}
      </p>
      <p>
        {first} was {item.about === 'weight' ? 'weighed' : 'reported'};{' '}
        {isOurs ? 'your side makes' : `${partner} makes`} it {claimed}.
        {value === undefined ? null : (
          <>
            {' '}
            <strong>{value}</strong> counts.
          </>
        )}
      </p>
      <p>
        {standing}
        {dueOn === undefined ? '' : ` By ${dueOn}.`}
      </p>
      {held === '' ? null : (
        <p>
          <strong className="amount">
            {held} {currency}
          </strong>{' '}
          is held until then.
        </p>
      )}
    </li>
  );
}
