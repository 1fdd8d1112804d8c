import sharp from 'sharp'
import { checkOf } from '../../server/checks/checked.ts'
import { kindOf, unitOf } from '../../server/checks/measured.ts'
import { addResult, beginCheck, storeSignature } from '../../server/checks/store.ts'
import { delivery } from '../../server/delivery/records.ts'
import type { Database } from '../../server/shared/database/database.ts'
import { openPhotoFiles } from '../../server/shared/photos/files.ts'
import { toPicture } from '../../server/shared/photos/picture.ts'
import { storePictures } from '../../server/shared/photos/taking.ts'
import { parseQuantity } from '../../server/calc/quantities.ts'
import { enteredBy, get, type World } from '../world.ts'
import { drawScene } from './scenes.ts'
import { DELIVERY, FOUND, PICTURES, STORY } from './tables.ts'

const WAGON = 58
const CHECK_DAY = -783
const DELIVERY_DAY = -782
const SIGNATURE = 'M60 120L90 60L110 130L140 80L170 130L200 100L260 118L340 96L420 112'

/** The wagon's final check, finished and signed, and its delivery. */
export async function addDelivery(database: Database, world: World): Promise<string> {
  const { id: buildId } = await database.reads.build.findFirstOrThrow({ where: { number: WAGON }, select: { id: true } })
  await checkWagon(database, world, buildId)
  enteredBy(world, 'n.corvane', DELIVERY_DAY, '15:40')
  const receivedAt = world.days.at(world.days.workday(DELIVERY_DAY), '16:05')
  world.rows.add(delivery, { ...DELIVERY, explainedById: get(world.people, 'n.corvane').id }, { buildId, receivedBy: 'Gideon Farrow', receivedAt, signature: SIGNATURE })
  enteredBy(world, 'c.oake', -1, '09:00')
  await world.rows.store(database)
  return buildId
}

async function checkWagon(database: Database, { days, people }: World, buildId: string): Promise<void> {
  const { points } = await checkOf(database.reads, buildId)
  const at = days.at(days.workday(CHECK_DAY), '14:10')
  const person = { checker: get(people, 'e.dunmoor').id, manager: get(people, 'c.oake').id }
  await database.write(async (write) => {
    const id = await beginCheck(write, buildId)
    for (const [index, { key, lineId, measures, limit, isOfRecords, open }] of points.entries()) {
      const { outcome = 'right', note = '', value, ...typed } = FOUND[key] ?? {}
      if (isOfRecords && open.length === 0) continue
      const read = value === undefined || measures === null ? null : parseQuantity(value, kindOf(measures), unitOf(measures, 'metric'))
      if (read && !read.ok) throw new Error(`the wagon’s ${key}: ${read.message}`)
      const held = measures === 'current' ? `at most ${limit?.most ?? ''} mA` : ''
      await addResult(write, id, {
        point: key, lineId, outcome, note, value: read?.value ?? null, at: new Date(at.getTime() + index * 60_000), personId: outcome === 'let pass' ? person.manager : person.checker,
        entered: { ...typed, ...(value === undefined ? {} : { value }), ...(held === '' ? {} : { limit: held }), ...(outcome === 'let pass' ? { open: open.join('\n') } : {}) },
      })
    }
    await storeSignature(write, id, { signedName: 'Emeka Dunmoor', signature: SIGNATURE, signedAt: days.at(days.workday(CHECK_DAY), '16:30') })
  })
}

/** The wagon's story, with the pictures that were drawn of it. */
export async function addStory(database: Database, buildId: string): Promise<void> {
  const { reads } = database
  const photos = await reads.photo.findMany({ where: { buildId, subjectKind: 'build', moment: { not: '' } }, orderBy: { createdAt: 'asc' }, select: { id: true, moment: true, caption: true } })
  const parts = await reads.fabricatedPart.findMany({ where: { buildId }, select: { id: true, name: true } })
  const { parts: told, ...typed } = STORY
  await database.write((write) => write.buildStory.create({
    data: {
      buildId, ...typed,
      pictures: { create: photos.map(({ id, moment, caption }, index) => ({ photoId: id, moment, words: caption, position: index + 1 })) },
      parts: { create: told.flatMap(([name, words], index) => parts.filter((part) => part.name === name).map(({ id }) => ({ partId: id, words, position: index + 1 }))) },
    },
  }))
}

/** Draws the pictures that were taken of the wagon and stores them. */
export async function addScenes(database: Database, photosDir: string, { days, people }: World, buildId: string): Promise<void> {
  const files = openPhotoFiles(photosDir)
  for (const [index, { moment, caption, scene, day }] of PICTURES.entries()) {
    const drawn = await sharp(Buffer.from(drawScene(scene, index + 1))).png({ compressionLevel: 1 }).toBuffer()
    const [stored] = await storePictures(files, [await toPicture('drawn.png', drawn)])
    if (!stored) throw new Error('a drawn picture was not stored')
    const createdAt = days.at(days.workday(day), `1${index}:20`)
    await database.write((write) => write.photo.create({ data: { ...stored, buildId, subjectKind: 'build', subjectId: buildId, personId: get(people, 's.penhale').id, createdAt, caption, moment } }))
  }
}
