/**
 * Programs that act for the party: which there are, letting one in, ending one.
 */
import { SCOPE_NAMES } from '../../domain/parties/scopes.ts';
import type { TokenView } from '../../usecases/tokens/keep-tokens.ts';
import type { ListField } from '../forms/field.ts';
import { RecordForm } from '../forms/record-form.tsx';
import { endToken, letIn } from './token-actions.ts';

export interface TokenPartProps {
  readonly party: string;
  readonly tokens: readonly TokenView[];
}

export function TokenPart({ party, tokens }: TokenPartProps) {
  return (
    <section aria-labelledby="programs">
      <h2 id="programs">Programs that act for {party}</h2>
      <p>
        A scale-house, laboratory or bookkeeping program can read and record here by itself. Give each its own
        token with no more than it needs; <a href="/api/v1/openapi.json">this document</a> tells its maker how
        to ask. A token stops when you end it, and when whoever made it leaves {party}.
      </p>
      {tokens.length === 0 ? null : (
        <ul className="members">
          {tokens.map((token) => (
            <TokenItem key={token.id} token={token} />
          ))}
        </ul>
      )}
      <RecordForm action={letIn} submit="Make a token" fields={FIELDS} />
    </section>
  );
}

function TokenItem({ token: { id, name, scopes, madeBy, madeAt, usedAt } }: { readonly token: TokenView }) {
  return (
    <li>
      <span>
        {name}: may {scopes.map((scope) => SCOPE_NAMES[scope]).join('; ')}. Made on {dayOf(madeAt)}
        {madeBy === undefined ? ' by somebody who has left, so it has stopped' : ` by ${madeBy}`}.{' '}
        {usedAt === undefined ? 'Not used yet.' : `Last used ${momentOf(usedAt)}.`}
      </span>
      <details>
        <summary>End it</summary>
        <p>From then on {name} can read and record nothing. What it recorded stays.</p>
        <RecordForm
          action={endToken}
          submit={`End ${name}`}
          fields={[{ kind: 'hidden', name: 'token', value: id }]}
          quiet
        />
      </details>
    </li>
  );
}

const KINDS = [
  ['loads', 'Loads and tickets'],
  ['samples', 'Samples'],
  ['results', 'Laboratory results'],
  ['quotes', 'Price quotes'],
  ['settlements', 'Settlements and decisions'],
] as const;

const FIELDS = [
  { kind: 'text', name: 'name', label: 'What the token is for', hint: 'Like “scale house”' } as const,
  ...KINDS.map(
    ([name, label]): ListField => ({
      kind: 'list',
      name,
      label,
      value: '',
      options: [
        { value: '', label: 'Nothing' },
        { value: 'read', label: 'Reads them' },
        { value: 'write', label: 'Records them' },
        { value: 'read write', label: 'Reads and records them' },
      ],
    }),
  ),
];

function dayOf(moment: number): string {
  return new Date(moment).toISOString().slice(0, 10);
}

function momentOf(moment: number): string {
  return `${new Date(moment).toISOString().slice(0, 16).replace('T', ' ')} UTC`;
}
