/** Property tests draw the same cases in every run, unless PROPERTY_SEED asks for others. */

import fc from 'fast-check';

fc.configureGlobal({ seed: Number(process.env.PROPERTY_SEED ?? 20260601) });
