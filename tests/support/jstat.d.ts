/** What the tests use of a library that brings no types. */
declare module 'jstat' {
  const jstat: { readonly beta: { variance(alpha: number, beta: number): number } }
  export default jstat
}
