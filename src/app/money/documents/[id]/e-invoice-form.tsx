/**
 * Asks which countries the parties are in, which no document of ours says, and gives the document as an electronic invoice.
 */
export function EInvoiceForm({
  documentId,
  seller,
  buyer,
}: {
  readonly documentId: string;
  readonly seller: string;
  readonly buyer: string;
}) {
  return (
    <details className="more-fields money-part">
      <summary>As an electronic invoice, for bookkeeping programs (XML)</summary>
      <form action={`/money/documents/${documentId}/e-invoice`} method="get" className="record-form">
        <p className="hint" id="countries-hint">
          Countries in two letters, like US for the United States, CA for Canada or DE for Germany.
        </p>
        <div className="fields">
          <div className="field-row">
            <Country name="seller" label={`Country of ${seller}`} />
            <Country name="buyer" label={`Country of ${buyer}`} />
          </div>
        </div>
        <button type="submit" className="quiet">
          Download the electronic invoice
        </button>
      </form>
    </details>
  );
}

function Country({ name, label }: { readonly name: string; readonly label: string }) {
  return (
    <div className="field">
      <label htmlFor={`country-${name}`}>{label}</label>
      <input
        id={`country-${name}`}
        name={name}
        type="text"
        defaultValue="US"
        maxLength={2}
        pattern="[A-Za-z]{2}"
        title="Two letters, like US"
        required
        autoComplete="off"
        aria-describedby="countries-hint"
      />
    </div>
  );
}
