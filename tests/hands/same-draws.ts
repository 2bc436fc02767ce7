import fc from 'fast-check';

/*
 * Every run draws the same cases, so a change is judged by what it changes. To look further, give
 * another seed: DRAWS=$RANDOM npx vitest run --project node
 */
fc.configureGlobal({ seed: Number(process.env.DRAWS ?? 20_261) });
