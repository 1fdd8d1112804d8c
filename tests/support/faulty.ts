import type { Database, Write } from '../../server/shared/database/database.ts'

/** Which store call of a write fails, counted from 1, and how. */
export interface Fault {
  failAt: number
  error: Error
  /** Whether the call does its work before it fails. */
  isDoneFirst: boolean
  /** Fails once only, as a lock that is soon let go. */
  isOnce: boolean
  calls: number
  hasFired: boolean
}

export const newFault = (): Fault =>
  ({ failAt: 0, error: new Error('disk I/O error'), isDoneFirst: false, isOnce: false, calls: 0, hasFired: false })

/** A database whose writes meet the fault. */
export function withFault(database: Database, fault: Fault): Database {
  return {
    ...database,
    write: (work) => database.write((write) => {
      fault.calls = 0
      return work(faultyModels(write, fault))
    }),
  }
}

function faultyModels(write: Write, fault: Fault): Write {
  return new Proxy(write, {
    get: (models, name) => {
      const model: unknown = Reflect.get(models, name)
      return model !== null && typeof model === 'object' ? faultyQueries(model, fault) : model
    },
  })
}

function faultyQueries(model: object, fault: Fault): object {
  return new Proxy(model, {
    get: (queries, name) => {
      const query: unknown = Reflect.get(queries, name)
      if (typeof query !== 'function') return query
      return async (...given: unknown[]) => {
        fault.calls += 1
        const isHit = fault.calls === fault.failAt && !(fault.isOnce && fault.hasFired)
        if (isHit && !fault.isDoneFirst) throw fired(fault)
        const result: unknown = await Reflect.apply(query, queries, given)
        if (isHit) throw fired(fault)
        return result
      }
    },
  })
}

function fired(fault: Fault): Error {
  fault.hasFired = true
  return fault.error
}
