/** A finger on the glass, by hand-made pointer events at instants of the page's own clock. */
export class Finger {
  #key: Element | null = null;
  readonly #id: number;

  constructor(id: number) {
    this.#id = id;
  }

  /** Comes down on the middle of a key. */
  down(key: Element, atMs: number): void {
    this.#key = key;
    const { left, top, width, height } = key.getBoundingClientRect();
    this.#say('pointerdown', left + width / 2, top + height / 2, atMs);
  }

  /** Lifts, this far outside of the edge of its key; below 0: inside. */
  lift(atMs: number, outPx = -10, side: 'left' | 'right' | 'above' | 'below' = 'right'): void {
    const box = this.#key?.getBoundingClientRect() ?? new DOMRect();
    const [midX, midY] = [box.left + box.width / 2, box.top + box.height / 2];
    const at = {
      left: [box.left - outPx, midY],
      right: [box.right + outPx, midY],
      above: [midX, box.top - outPx],
      below: [midX, box.bottom + outPx],
    } as const;
    const [x, y] = at[side];
    this.#say('pointerup', x, y, atMs);
  }

  /** Is taken away by the device, as for a gesture of its own. */
  cancel(atMs: number): void {
    this.#say('pointercancel', 0, 0, atMs);
  }

  #say(kind: string, clientX: number, clientY: number, atMs: number): void {
    const event = new PointerEvent(kind, {
      pointerId: this.#id,
      pointerType: 'touch',
      button: 0,
      clientX,
      clientY,
      bubbles: true,
    });
    Object.defineProperty(event, 'timeStamp', { value: atMs });
    // Pointer Events, W3C: a captured element that has left the page loses the pointer to the document.
    (this.#key?.isConnected ? this.#key : document).dispatchEvent(event);
  }
}
