/** seedrandom ships its generators one file each, without types for them. */
declare module 'seedrandom/lib/alea.js' {
  interface State {
    s0: number;
    s1: number;
    s2: number;
    c: number;
  }
  interface Generator {
    (): number;
    state(): State;
  }
  export default function alea(seed: string, options?: { state: true }): Generator;
}
