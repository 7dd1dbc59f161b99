/**
 * Exit statuses of every command.
 */
export const EXIT = {
  /** Every load settled or was refused; or the command did what it was asked. */
  done: 0,
  /** An input error or a wrong use: nothing was written. */
  wrong: 1,
  /** Some loads wait. */
  waiting: 2,
} as const;
export type ExitStatus = (typeof EXIT)[keyof typeof EXIT];

/** A wrong use of the command line, in words that say what to do. */
export class WrongUse extends Error {}
