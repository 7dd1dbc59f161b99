/**
 * The files of a lot, to save; for its seller a form to attach one.
 */
import { randomUUID } from 'node:crypto';
import { FILE_KIND_NAMES } from '../../../domain/files/file-kind.ts';
import type { LotView } from '../../../usecases/lots/read-lot-view.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { attach } from '../lot-actions.ts';

export interface LotFilesProps {
  readonly view: LotView;
  readonly mayAttach: boolean;
}

export function LotFiles({ view: { summary, files }, mayAttach }: LotFilesProps) {
  const isAttaching = mayAttach && summary.standing !== 'sold';
  if (files.length === 0 && !isAttaching) return null;
  return (
    <section>
      <h2>Files</h2>
      {files.length === 0 ? (
        <p>None yet.</p>
      ) : (
        <ul className="files">
          {files.map(({ id, name, kind, size, recordedAt }) => (
            <li key={id}>
              <a href={`/lots/${summary.id}/files/${id}`}>{name}</a>{' '}
              <span className="quiet-word">
                {FILE_KIND_NAMES[kind].word}, {sizeWords(size)}, {recordedAt.slice(0, 10)}
              </span>
            </li>
          ))}
        </ul>
      )}
      {isAttaching ? (
        <RecordForm
          action={attach}
          submit="Attach this file"
          requestKey={randomUUID()}
          quiet
          fields={[
            { kind: 'hidden', name: 'lot', value: summary.id },
            {
              kind: 'file',
              name: 'file',
              label: 'A laboratory’s report',
              hint: 'PDF, PNG or JPEG, at most 10 MB. Whoever may see the lot may open it, and it cannot be taken back. “Change it” then lets a test name it.',
              accept: '.pdf,.png,.jpg,.jpeg',
            },
          ]}
        />
      ) : null}
    </section>
  );
}

/** "1.2 MB" */
function sizeWords(bytes: number): string {
  return bytes < 1_000_000
    ? `${Math.max(1, Math.round(bytes / 1_000))} kB`
    : `${(bytes / 1_000_000).toFixed(1)} MB`;
}
