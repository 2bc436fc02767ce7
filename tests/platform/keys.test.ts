import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { userEvent } from 'vitest/browser';
import { deviceKeys, type KeyHeard, type LearntKeys } from '#platform/keys.ts';
import { figure } from '../hands/figure.ts';
import { keyDown, pageDown, pageUp, stayDown, wornPress } from '../hands/pedal.ts';

// Key values and codes: W3C UI Events KeyboardEvent key and code Values. That page turners and
// presenters send PageUp, PageDown or arrows, some Enter or Space: common practice, no source.

let letGos: (() => void)[] = [];
let done: KeyHeard[] = [];
let atMs = 10_000;

beforeEach(() => {
  done = [];
});

afterEach(() => {
  for (const letGo of letGos) letGo();
  letGos = [];
  document.body.replaceChildren();
});

function listen(learnt: LearntKeys | null = null): () => void {
  const letGo = deviceKeys.listen(learnt, (means) => done.push(means));
  letGos.push(letGo);
  return letGo;
}

/** A second of quiet, then one key. */
function press(key: string, code = key) {
  atMs += 1_000;
  return keyDown({ key, code }, atMs);
}

/** Puts an element on the page and the focus on it. */
function focusOn(html: string): HTMLElement {
  document.body.insertAdjacentHTML('beforeend', html);
  const element = document.body.lastElementChild as HTMLElement;
  element.focus();
  expect(document.activeElement).toBe(element);
  return element;
}

describe('with nothing learnt', () => {
  test.each([
    ['PageDown', 'PageDown', 'press'],
    ['ArrowRight', 'ArrowRight', 'press'],
    ['ArrowDown', 'ArrowDown', 'press'],
    ['Enter', 'Enter', 'press'],
    ['Enter', 'NumpadEnter', 'press'],
    [' ', 'Space', 'press'],
    ['PageUp', 'PageUp', 'undo'],
    ['ArrowLeft', 'ArrowLeft', 'undo'],
    ['ArrowUp', 'ArrowUp', 'undo'],
    ['u', 'KeyU', 'undo'],
    ['U', 'KeyU', 'undo'],
    ['1', 'Digit1', 1],
    ['&', 'Digit1', 1],
    ['2', 'Numpad2', 2],
    ['3', 'Digit3', 3],
    ['PageDown', '', 'press'],
    ['PageDown', 'Unidentified', 'press'],
  ] as const)(
    '%j at the place %j means %s, and the page does not move for it',
    (key, code, means) => {
      listen();
      expect(press(key, code).defaultPrevented).toBe(true);
      expect(done).toEqual([means]);
    },
  );

  test.each([
    ['Tab', 'Tab'],
    ['Escape', 'Escape'],
    ['a', 'KeyA'],
    ['4', 'Digit4'],
    ['AudioVolumeUp', 'AudioVolumeUp'],
    ['F5', 'F5'],
  ])('%j stays with the browser', (key, code) => {
    listen();
    expect(press(key, code).defaultPrevented).toBe(false);
    expect(done).toEqual([]);
  });

  test('a shortcut of the browser, such as Alt and Left, stays with the browser', () => {
    listen();
    for (const held of [{ altKey: true }, { ctrlKey: true }]) {
      atMs += 1_000;
      const event = keyDown({ key: 'ArrowLeft', code: 'ArrowLeft', ...held }, atMs);
      expect(event.defaultPrevented).toBe(false);
    }
    expect(done).toEqual([]);
  });
});

describe('one foot, one press', () => {
  test('a held key is one press, and its repeats do not move the page', () => {
    listen();
    press('PageDown');
    for (let held = 1; held < 30; held += 1) {
      const event = keyDown({ ...pageDown, repeat: true }, atMs + 500 + held * 33);
      expect(event.defaultPrevented).toBe(true);
    }
    expect(done).toEqual(['press', 'held']);
  });

  test('a bounce within 300 ms is no press; 300 ms after it the next one counts', () => {
    listen();
    atMs += 1_000;
    for (const laterMs of [0, 40, 299, 598, 898]) keyDown(pageDown, atMs + laterMs);
    expect(done).toEqual(['press', 'press']);
  });

  test('a pedal that says over and over that it is held, without calling it so, is one press', () => {
    listen();
    atMs += 1_000;
    for (let held = 0; held < 40; held += 1) keyDown(pageDown, atMs + held * 110);
    expect(done).toEqual(['press', 'held']);
    atMs += 40 * 110;
  });

  test('two keys do not wait for each other', () => {
    listen();
    atMs += 1_000;
    keyDown(pageDown, atMs);
    keyDown(pageUp, atMs + 20);
    expect(done).toEqual(['press', 'undo']);
  });

  test('a hundred presses of a worn pedal are a hundred', () => {
    listen();
    for (let count = 0; count < 100; count += 1) {
      atMs += 1_000;
      wornPress(pageDown, atMs);
    }
    figure({
      drill: 'A hundred presses of a worn pedal',
      required: '100 of 100, none doubled',
      reached: `${done.length} of 100`,
      isMet: done.length === 100,
    });
    expect(done).toEqual(Array.from({ length: 100 }, () => 'press'));
  });
});

describe('what has the focus keeps its keys', () => {
  test.each(['<input>', '<textarea></textarea>', '<div contenteditable="true"></div>'])(
    'a text field keeps all: %s',
    (html) => {
      focusOn(html);
      listen();
      for (const key of ['PageDown', 'ArrowLeft', 'Enter', '1', ' ']) {
        expect(press(key).defaultPrevented).toBe(false);
      }
      expect(done).toEqual([]);
    },
  );

  test('Enter and Space press the button that has the focus, once, and nothing else', async () => {
    listen();
    let presses = 0;
    focusOn('<button type="button">Key</button>').addEventListener('click', () => {
      presses += 1;
    });
    await userEvent.keyboard('{Enter}');
    await userEvent.keyboard(' ');
    expect(presses).toBe(2);
    expect(done).toEqual([]);
  });

  test('a pedal of page keys works also while a button or a link has the focus', () => {
    listen();
    for (const html of ['<button type="button">Key</button>', '<a href="#/pour">Pour</a>']) {
      focusOn(html);
      expect(press('Enter').defaultPrevented).toBe(false);
      press('PageDown');
    }
    expect(done).toEqual(['press', 'press']);
  });
});

describe('learnt keys', () => {
  test('mean what was learnt; the others what they usually mean', () => {
    listen({ press: ['KeyB'], undo: ['PageDown'] });
    press('b', 'KeyB');
    press('PageDown');
    press('ArrowRight');
    press('PageUp');
    expect(done).toEqual(['press', 'undo', 'press', 'undo']);
  });

  test('are known by their place or by what they write', () => {
    listen({ press: ['MediaTrackNext'], undo: ['UIKeyInputLeftArrow'] });
    press('MediaTrackNext', '');
    press('UIKeyInputLeftArrow', '');
    expect(done).toEqual(['press', 'undo']);
  });
});

describe('learning', () => {
  test('tells every key by its place, or by what it writes where it has none', () => {
    const told: string[] = [];
    letGos.push(deviceKeys.learn((key) => told.push(key)));
    press('b', 'KeyB');
    press('Enter', 'NumpadEnter');
    press('UIKeyInputDownArrow', '');
    press('MediaPlayPause', 'Unidentified');
    expect(told).toEqual(['KeyB', 'NumpadEnter', 'UIKeyInputDownArrow', 'MediaPlayPause']);
  });

  test('takes no key that has no name, or that a keyboard needs to move about', () => {
    const told: string[] = [];
    letGos.push(deviceKeys.learn((key) => told.push(key)));
    press('Unidentified', '');
    press('Process', 'Unidentified');
    press('Shift', 'ShiftLeft');
    expect(press('Tab').defaultPrevented).toBe(false);
    expect(press('Escape').defaultPrevented).toBe(false);
    expect(told).toEqual([]);
  });

  test('Enter and Space still press a button that was walked to, so that one can walk away', async () => {
    const told: string[] = [];
    letGos.push(deviceKeys.learn((key) => told.push(key)));
    let presses = 0;
    const button = focusOn('<button type="button">Key</button>');
    button.addEventListener('click', () => {
      presses += 1;
    });
    await userEvent.keyboard('{Enter}');
    await userEvent.keyboard(' ');
    expect(presses).toBe(2);
    button.blur();
    await userEvent.keyboard('{Enter}');
    await userEvent.keyboard(' ');
    expect(told).toEqual(['Enter', 'Space']);
    expect(presses).toBe(2);
  });
});

test('after letting go no key is heard', () => {
  const letGo = listen();
  press('PageDown');
  letGo();
  expect(press('PageDown').defaultPrevented).toBe(false);
  expect(done).toEqual(['press']);
});

describe('a key that stays down', () => {
  test('is told once after a second, of the main press and of Undo', () => {
    listen();
    keyDown(pageDown, 1_000);
    stayDown(pageDown, 1_000);
    keyDown({ ...pageDown, repeat: true }, 9_000);
    expect(done).toEqual(['press', 'held']);
    keyDown(pageUp, 20_000);
    stayDown(pageUp, 20_000);
    expect(done).toEqual(['press', 'held', 'undo', 'undo-held']);
    keyDown({ key: '1', code: 'Digit1' }, 30_000);
    stayDown({ key: '1', code: 'Digit1' }, 30_000);
    expect(done.slice(4)).toEqual([1]);
  });

  test('is told too where the pedal sends press after press instead of repeats', () => {
    listen();
    for (let at = 1_000; at <= 2_100; at += 100) keyDown(pageDown, at);
    expect(done).toEqual(['press', 'held']);
  });

  test('is nothing that a foot does which taps fast', () => {
    listen();
    for (let at = 1_000; at <= 4_000; at += 250) keyDown(pageDown, at);
    expect(done).toEqual(['press']);
  });
});
