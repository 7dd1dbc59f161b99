/**
 * A time on the wall clock of a zone. Until somebody changes it, it keeps up with the clock: a form that was opened an
 * hour ago must not record an hour ago. Without scripts it stays at the time when the page was made.
 */
'use client';

import { useEffect, useRef } from 'react';
import { wallClockNow } from '../times/wall-clock.ts';
import type { Given } from './field.ts';

export interface WallClockInputProps {
  readonly given: Given;
  readonly value: string;
  /** What the field held when the page was made. */
  readonly preset: string;
  readonly timeZone: string;
}

const TICK_MS = 15_000;

export function WallClockInput({ given, value, preset, timeZone }: WallClockInputProps) {
  const input = useRef<HTMLInputElement>(null);
  const isTouched = useRef(value !== preset);
  useEffect(() => {
    const keepUp = () => {
      if (input.current && !isTouched.current) input.current.value = wallClockNow(Date.now(), timeZone);
    };
    const timer = setInterval(keepUp, TICK_MS);
    return () => clearInterval(timer);
  }, [timeZone]);
  return (
    <input
      {...given}
      ref={input}
      type="datetime-local"
      defaultValue={value}
      onChange={() => {
        isTouched.current = true;
      }}
    />
  );
}
