declare module '*.wood' {
  const text: string;
  export default text;
}
