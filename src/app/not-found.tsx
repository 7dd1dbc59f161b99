/**
 * An address that leads to nothing, or to something that is none of the reader's business: the two look the same.
 */
export const metadata = { title: 'Not found' };

export default function NotFound() {
  return (
    <div className="narrow">
      <h1>There is nothing here</h1>
      <p>
        Nothing of yours has this address. If a link brought you, it may belong to another party’s record.
      </p>
      <p>
        <a href="/loads">To the loads</a>
      </p>
    </div>
  );
}
