/**
 * A sealed season as one file: everything that the seal stands over, so that somebody with the file and the printed statement
 * can check it without the program's record. Its shape is frozen.
 */
import { z } from 'zod';

export const SEASON_FORMAT = 'huskledger-season/1';

const fingerprint = z.string().regex(/^[0-9a-f]{64}$/);

export const seasonFileShape = z.strictObject({
  format: z.literal(SEASON_FORMAT),
  /** The closing statement's text, as it was signed. */
  statement: z.string(),
  signatures: z.array(
    z.strictObject({
      party: z.string(),
      name: z.string(),
      /** ISO 8601, UTC. */
      signedAt: z.string(),
      fingerprint,
    }),
  ),
  seal: z.strictObject({
    root: fingerprint,
    entries: z.string().regex(/^\d+$/),
    sealedAt: z.string(),
    /** SHA-256 over the statement's fingerprint, the root and who signed when: printed beside the root. */
    mark: fingerprint,
  }),
  /** Each version of the agreement, oldest first, as its canonical text. */
  agreements: z.array(z.string()),
  /** The journal, entry by entry, as its canonical text. */
  entries: z.array(z.string()),
});

export type SeasonFile = z.infer<typeof seasonFileShape>;

/** The file's text: there is one way to write it. */
export function seasonFileText(file: SeasonFile): string {
  return `${JSON.stringify(file, null, 1)}\n`;
}
