declare module '*.wood' {
  const text: string;
  export default text;
}
declare module '*.md' {
  const text: string;
  export default text;
}
