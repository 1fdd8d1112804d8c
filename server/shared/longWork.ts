import { Worker } from 'node:worker_threads'

/** A long calculation beside the service: it tells what it has so far, and ends when it is done or told to. */
export interface LongWork {
  /** Asks it to end with what it has. */
  stop(): void
  /** Ends it at once; nothing more comes. */
  cut(): Promise<void>
}

interface Begun<Told> {
  /** The file that runs, beside the one that asks: without its ending, which differs once the service is built. */
  readonly file: string
  readonly beside: string
  readonly given: unknown
  onTold(told: Told): void
  /** Once; null where it ended well. */
  onEnd(failure: Error | null): void
}

/** Starts a calculation in a thread of its own. What it is given is copied. */
export function startLongWork<Told>({ file, beside, given, onTold, onEnd }: Begun<Told>): LongWork {
  const worker = new Worker(entryOf(file, beside), { workerData: given })
  let failure: Error | null = null
  let isCut = false
  worker.on('message', (told: Told) => { if (!isCut) onTold(told) })
  worker.on('error', (error: Error) => { failure = error })
  worker.on('exit', () => { if (!isCut) onEnd(failure) })
  return {
    stop: () => worker.postMessage('stop'),
    async cut() {
      isCut = true
      await worker.terminate()
    },
  }
}

// A thread does not take over what lets its parent read TypeScript, as in tests: it brings it in for itself.
function entryOf(file: string, beside: string): URL {
  if (!beside.endsWith('.ts')) return new URL(`${file}.js`, beside)
  const reads = JSON.stringify(import.meta.resolve('tsx/esm/api'))
  const runs = JSON.stringify(new URL(`${file}.ts`, beside).href)
  return new URL(`data:text/javascript,${encodeURIComponent(`import { register } from ${reads}; register(); await import(${runs})`)}`)
}
