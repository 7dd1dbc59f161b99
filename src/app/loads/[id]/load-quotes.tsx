/**
 * The public prices behind a settlement, with the days they were quoted on.
 */
import type { InvoiceReference } from '../../../documents/invoice/invoice-data.ts';

export function LoadQuotes({ references }: { readonly references: readonly InvoiceReference[] }) {
  if (references.length === 0) return null;
  return (
    <>
      <h3>Prices used</h3>
      <ul className="quotes">
        {references.map((reference) => (
          <li key={reference.name}>
            {reference.name}:{' '}
            <strong>
              {reference.price} {reference.unit}
            </strong>
            {reference.quotedOn.length === 0
              ? ', fixed by the agreement.'
              : `, from ${reference.quote} quoted on ${reference.quotedOn.join(', ')} (${reference.series}).`}
          </li>
        ))}
      </ul>
    </>
  );
}
