/**
 * Lets whoever waits for a write hear of it so many ms late, as where the disk has much else to do, until
 * the returned function is called. `isOn` is asked as a write begins.
 */
export function lateAnswers(ms: number, isOn: () => boolean = () => true): () => void {
  // The clock of the browser, also where a test has put its own in place.
  const later = window.setTimeout.bind(window);
  const begin = IDBDatabase.prototype.transaction;
  IDBDatabase.prototype.transaction = function (...asked) {
    const transaction = begin.apply(this, asked);
    if (transaction.mode !== 'readwrite' || !isOn()) return transaction;
    const listen = transaction.addEventListener.bind(transaction);
    transaction.addEventListener = (kind: string, hear: EventListener, ...how: []) =>
      listen(kind, kind === 'complete' ? (event) => later(() => hear(event), ms) : hear, ...how);
    return transaction;
  };
  return () => {
    IDBDatabase.prototype.transaction = begin;
  };
}
