/**
 * A store whose transactions fail at a statement of one's choice, before it is sent or after it was done. What fails is
 * the program's own side: nothing is told to the database but that the transaction is over.
 */
import type { Store, Transaction } from '../../src/store/open-store.ts';

export class Fault extends Error {}

export interface FaultPoint {
  /** Which statement of a transaction, counted from 1; or any whose text matches. */
  readonly at: number | RegExp;
  readonly when: 'before' | 'after';
}

export interface FaultyStore extends Store {
  /** Statements that were sent so far, as text where they have one. */
  readonly sent: readonly string[];
  /** Whether the fault came. */
  readonly hasFailed: () => boolean;
}

export function faultyStore(store: Store, { at, when }: FaultPoint): FaultyStore {
  const sent: string[] = [];
  let hasFailed = false;
  const fail = (text: string) => {
    hasFailed = true;
    throw new Fault(`${when} statement ${sent.length}: ${text.slice(0, 60)}`);
  };
  const counted = (call: (...given: unknown[]) => Promise<unknown>, name: string) => {
    return async (...given: unknown[]) => {
      const text = typeof given[0] === 'string' ? given[0] : name;
      sent.push(text);
      const isHere = !hasFailed && (typeof at === 'number' ? sent.length === at : at.test(text));
      if (isHere && when === 'before') fail(text);
      const answer = await call(...given);
      if (isHere) fail(text);
      return answer;
    };
  };
  const wrapped = (target: object, named: string): object =>
    new Proxy(target, {
      get: (of, key) => {
        const value: unknown = Reflect.get(of, key);
        const name = `${named}${String(key)}`;
        if (typeof value === 'function') return counted(value.bind(of), name);
        return typeof value === 'object' && value !== null ? wrapped(value, `${name}.`) : value;
      },
    });
  return {
    ...store,
    forParty: (partyId, work) => store.forParty(partyId, (tx) => work(wrapped(tx, '') as Transaction)),
    sent,
    hasFailed: () => hasFailed,
  };
}
