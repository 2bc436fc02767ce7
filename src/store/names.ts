/** The database of the person's own shop. */
export const bookName = 'warmshot';

/** The database of the demo shop: a logbook of its own, so that made-up and real numbers never meet. */
export const demoName = 'warmshot-demo';
