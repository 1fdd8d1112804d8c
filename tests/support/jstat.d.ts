/** What the tests use of a library that brings no types. */
declare module 'jstat' {
  const jstat: {
    readonly beta: { variance(alpha: number, beta: number): number, inv(share: number, alpha: number, beta: number): number }
    readonly normal: { inv(share: number, mean: number, deviation: number): number }
  }
  export default jstat
}
