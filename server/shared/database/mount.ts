import type { Logger } from 'pino'
import { statfsSync } from 'node:fs'

// Magic numbers of statfs(2) for file systems that reach over a network.
const NETWORK = new Map([[0x6969, 'NFS'], [0xff534d42, 'SMB'], [0x517b, 'SMB'], [0xfe534d42, 'SMB'], [0x65735546, 'a user-space mount']])

/** SQLite's locks are not dependable over a network. */
export function warnOfNetworkMount(dataDir: string, logger: Logger): void {
  const kind = NETWORK.get(statfsSync(dataDir).type)
  if (kind) logger.warn({ dataDir }, `the data lies on ${kind}: a network mount can lose or damage it; use a local disk`)
}
