/** Time limit, in ms, that only catches hangs: on a busy machine a test takes as long as it takes. */
export const HANG = 1_800_000;
