/**
 * What every field of the builder needs: the draft, how to change it, and what is wrong in it.
 */
'use client';

import { createContext, useContext } from 'react';
import type { AgreementProblem, JsonPath } from '../../domain/agreement/problem.ts';
import type { Change } from './builder-state.ts';
import { type Draft, readAt } from './document-path.ts';
import type { FixedKey } from './fixed-key.ts';
import { isSame } from './setting.ts';

export interface Builder {
  readonly document: Draft;
  readonly change: (change: Change) => void;
  readonly problems: readonly AgreementProblem[];
  readonly fixed: readonly FixedKey[];
  /** The currency's code, or what stands for it until there is one. */
  readonly currency: string;
}

export const BuilderContext = createContext<Builder | undefined>(undefined);

export function useBuilder(): Builder {
  const builder = useContext(BuilderContext);
  if (!builder) throw new Error('A field of the formula builder stands outside of it');
  return builder;
}

export interface Place {
  readonly value: unknown;
  /** Writes here; '' and undefined leave the key out. */
  readonly write: (value: unknown) => void;
  readonly faults: readonly string[];
}

/** One place of the draft. */
export function usePlace(path: JsonPath): Place {
  const { document, change, problems } = useBuilder();
  return {
    value: readAt(document, path),
    write: (value) => change({ kind: 'write', path, value: value === '' ? undefined : value }),
    faults: problems.filter((problem) => isSame(problem.path, path)).map(({ message }) => message),
  };
}
