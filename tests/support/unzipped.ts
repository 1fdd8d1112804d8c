import { fromBuffer, type Entry, type ZipFile } from 'yauzl'

/** The files of a zip by name, read by another library than the one that wrote it. */
export function unzipped(data: Buffer): Promise<Map<string, Buffer>> {
  return new Promise((resolve, reject) => {
    fromBuffer(data, { lazyEntries: true, validateEntrySizes: true }, (error, archive) => (error ? reject(error) : readAll(archive, resolve, reject)))
  })
}

function readAll(archive: ZipFile, resolve: (files: Map<string, Buffer>) => void, reject: (error: Error) => void): void {
  const files = new Map<string, Buffer>()
  archive.on('error', reject)
  archive.on('end', () => resolve(files))
  archive.on('entry', (entry: Entry) => {
    archive.openReadStream(entry, (error, stream) => {
      if (error) return reject(error)
      const pieces: Buffer[] = []
      stream.on('error', reject)
      stream.on('data', (piece: Buffer) => pieces.push(piece))
      stream.on('end', () => {
        files.set(entry.fileName, Buffer.concat(pieces))
        archive.readEntry()
      })
    })
  })
  archive.readEntry()
}
