import { type ComponentChildren, render } from 'preact';
import { afterEach } from 'vitest';
import '#styles/base.css';
import '#styles/tokens.css';
import { unknownSafety } from '#live/late-safety.ts';
import type { Safety, SafetyState } from '#live/safety.ts';
import { type Shop, ShopContext } from '#live/shop.ts';
import { devicePictures } from '#platform/pictures.ts';
import { deviceTableLock } from '#platform/table-lock.ts';
import { openBook } from '#store/book.ts';
import { morning } from './evening.ts';

/** A shop with a fresh logbook, a clock that stands where it is put, and a hand that is written down. */
export interface TestShop extends Shop {
  /** Puts the clock. */
  set: (at: number) => void;
  /** Every answer to the hand so far. */
  felt: ('confirm' | 'refuse')[];
  /** Every file that left the device. */
  handed: File[];
  /** Every text that was copied or shared, after its way. */
  handedOn: [way: 'copy' | 'share', text: string][];
}

/** Opens a fresh shop; the clock stands at 9:00 in Berlin on 25 Nov 2026. */
export async function aShop(zone = 'Europe/Berlin'): Promise<TestShop> {
  let at = morning;
  const name = `screen-${crypto.randomUUID()}`;
  const felt: TestShop['felt'] = [];
  const handed: File[] = [];
  const handedOn: TestShop['handedOn'] = [];
  const hand = (way: 'copy' | 'share') => async (text: string) => handedOn.push([way, text]) > 0;
  return {
    book: await openBook(name),
    clock: {
      now: () => at,
      every: () => () => {},
      jumpMs: () => 0,
      realMs: (ms) => ms,
      zone: () => zone,
    },
    touch: { confirm: () => felt.push('confirm'), refuse: () => felt.push('refuse') },
    sound: {
      canSound: () => () => {},
      arm: () => {},
      hush: () => {},
      ready: () => {},
      logged: () => {},
      wrongWay: () => {},
    },
    keys: { listen: () => () => {}, learn: () => () => {} },
    pictures: devicePictures,
    share: { can: () => true, share: hand('share'), copy: hand('copy') },
    wakeLock: { hold: () => () => {} },
    tableLock: deviceTableLock(name),
    leaveDemo: null,
    files: {
      canShare: () => false,
      share: async () => false,
      save: (file) => handed.push(file),
    },
    version: '1.2.3',
    safety: aSafety(),
    updates: {
      state: () => 'current',
      whenStored: () => () => {},
      told: () => {},
      take: async () => {},
    },
    holdSession: () => () => {},
    set: (next) => {
      at = next;
    },
    felt,
    handed,
    handedOn,
  };
}

/** A second copy that stands as it is told, and writes down what it is asked in `asked`. */
export function aSafety(changes: Partial<SafetyState> = {}, asked: string[] = []): Safety {
  const state = { ...unknownSafety, ...changes };
  return {
    state: () => state,
    hear: () => () => {},
    start: async () => {},
    check: async () => {},
    makeRoom: async () => false,
    hasRoom: async () => state.trouble !== 'full',
    look: async () => null,
    forget: async () => void asked.push('forget'),
    noted: () => void asked.push('noted'),
    ask: async () => void asked.push('ask'),
    skipAsking: () => void asked.push('skip'),
  };
}

let root: HTMLElement | null = null;

/** Draws a screen in the page, in the frame's type. The one before is taken away. */
export function show(shop: Shop, screen: ComponentChildren): HTMLElement {
  clear();
  root = document.createElement('div');
  root.style.cssText = 'font-size: var(--d-body); line-height: 1.4';
  document.body.append(root);
  render(<ShopContext.Provider value={shop}>{screen}</ShopContext.Provider>, root);
  return root;
}

function clear(): void {
  if (!root) return;
  render(null, root);
  root.remove();
  root = null;
}

afterEach(() => {
  clear();
  window.location.hash = '';
});
