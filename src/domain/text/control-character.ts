/**
 * Characters that are no text: they move a terminal's cursor, ring it or turn the direction of what follows.
 */

/** A control character that is no line break or tab, or a mark that turns text round. */
export const CONTROL_CHARACTER = /[^\P{Cc}\t\n\r]|[\u202a-\u202e\u2066-\u2069]/u;
