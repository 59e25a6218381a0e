/** The package brings no types; this is the part of it that is used. */
declare module 'write-file-atomic' {
  export default function writeFileAtomic(path: string, content: string | Uint8Array): Promise<void>;
}
