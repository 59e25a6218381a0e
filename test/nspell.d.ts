/** What the tests use of the spelling checker, which has no types of its own. */

declare module 'nspell' {
  interface Spelling {
    correct(word: string): boolean;
  }
  export default function nspell(dictionary: {
    readonly aff: Uint8Array;
    readonly dic: Uint8Array;
  }): Spelling;
}
