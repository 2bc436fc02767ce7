import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import styles from './NumberPad.module.css';

const numeric = 'input[inputmode="decimal"], input[inputmode="numeric"], input[data-pad]';

/** A press is over by then. */
const afterPressMs = 400;

/** The decimal mark of this place; fields take point and comma alike. */
function markHere(): string {
  return (1.5).toLocaleString().replace(/\d/g, '') || '.';
}

/**
 * A pad of large digits for every number field of the desk, in place of the phone's keyboard: no letter
 * can be hit, and the field stays in sight. Only where a finger is the pointer; one key brings the
 * phone's own keyboard.
 */
export function NumberPad() {
  const [field, setField] = useState<HTMLInputElement | null>(null);
  const own = useRef(new WeakSet<HTMLInputElement>());
  const mark = markHere();

  // Before the page can be touched, or a quick finger's field brings the phone's keyboard.
  useLayoutEffect(() => {
    const isFinger = window.matchMedia('(pointer: coarse)');
    const fieldOf = (target: EventTarget | null) =>
      isFinger.matches &&
      target instanceof HTMLInputElement &&
      target.matches(numeric) &&
      !own.current.has(target)
        ? target
        : null;
    // Before the field has the focus, or the phone's keyboard would come up and go again.
    const quiet = ({ target }: Event) => {
      const found = fieldOf(target);
      if (!found) return;
      found.dataset.pad ??= found.inputMode;
      found.inputMode = 'none';
    };
    const focused = (event: FocusEvent) => {
      quiet(event);
      const found = fieldOf(event.target);
      if (found) setField(found);
    };
    // The press that leaves the field must find its key where it was: the pad goes after it.
    const left = () =>
      setTimeout(
        () => setField((now) => (document.activeElement === now ? now : null)),
        afterPressMs,
      );
    document.addEventListener('pointerdown', quiet, true);
    document.addEventListener('focusin', focused);
    document.addEventListener('focusout', left);
    return () => {
      document.removeEventListener('pointerdown', quiet, true);
      document.removeEventListener('focusin', focused);
      document.removeEventListener('focusout', left);
    };
  }, []);

  // With the pad, not a frame after it: whoever scrolls at once finds the room below.
  useLayoutEffect(() => {
    if (!field) return;
    const page = document.documentElement;
    page.dataset.digits = '';
    field.scrollIntoView({ block: 'center' });
    return () => {
      delete page.dataset.digits;
    };
  }, [field]);
  if (!field) return null;

  const put = (text: string) => {
    const [from, to] = [field.selectionStart ?? 0, field.selectionEnd ?? 0];
    const isTaking = text === '' && from === to;
    field.setRangeText(text, isTaking ? Math.max(0, from - 1) : from, to, 'end');
    field.dispatchEvent(new InputEvent('input', { bubbles: true }));
  };
  const letters = () => {
    own.current.add(field);
    setField(null);
    field.inputMode = (field.dataset.pad as 'decimal' | undefined) ?? 'decimal';
    // The keyboard comes with the focus.
    field.blur();
    field.focus();
  };
  // Not on the way of Tab: whoever has keys types the digits, and the pad is about to go when a field is left.
  return (
    <div
      class={styles.pad}
      role="group"
      aria-label="Digits"
      // The field keeps the focus while the pad is pressed.
      onPointerDown={(event) => event.preventDefault()}
      onMouseDown={(event) => event.preventDefault()}
    >
      {['1', '2', '3', '4', '5', '6', '7', '8', '9', mark, '0'].map((digit) => (
        <button type="button" tabIndex={-1} key={digit} onClick={() => put(digit)}>
          {digit}
        </button>
      ))}
      <button type="button" tabIndex={-1} onClick={() => put('')}>
        Delete
      </button>
      <button type="button" tabIndex={-1} class={styles.word} onClick={letters}>
        Keyboard
      </button>
      <button type="button" tabIndex={-1} class={styles.word} onClick={() => field.blur()}>
        Done
      </button>
    </div>
  );
}
