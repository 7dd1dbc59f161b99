/**
 * The laboratory's report that came with a form.
 */
import { MOST_FILE_BYTES } from '../../domain/files/file-kind.ts';
import type { GivenFile } from '../../usecases/files/keep-file.ts';

/** The file that was chosen, or undefined. */
export async function reportIn(sent: FormData): Promise<GivenFile | undefined> {
  const file = sent.get('report');
  // Where none was chosen, a browser sends one of no length, and with scripts one that has a name.
  if (!(file instanceof File) || file.size === 0) return undefined;
  // A file that is too long is refused for its length: one byte more than allowed says as much.
  const bytes = new Uint8Array(await file.slice(0, MOST_FILE_BYTES + 1).arrayBuffer());
  return { name: file.name, bytes };
}

/** The same by the sample that it is of, as results are recorded. */
export async function reportsIn(
  sent: FormData,
  sample: string,
): Promise<Readonly<Record<string, GivenFile>>> {
  const report = await reportIn(sent);
  return report ? { [sample]: report } : {};
}
