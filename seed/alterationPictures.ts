import sharp from 'sharp'
import type { Database } from '../server/shared/database/database.ts'
import { openPhotoFiles } from '../server/shared/photos/files.ts'
import { toPicture } from '../server/shared/photos/picture.ts'
import { storePictures } from '../server/shared/photos/taking.ts'
import { panel } from './intake/pictures.ts'
import { get, type World } from './world.ts'

// Nobody took one of these, so that the demo shows how such a thing stands out.
const NOT_PHOTOGRAPHED = ['Six holes 9 mm for rivet nuts in the roof bows', 'Rib behind the center vents taken down by 4 mm for the screen frame']
const COLORS = ['#5d6a6e', '#3f4a40', '#6b5a4d', '#40485c'] as const

/** Draws a few pictures and hangs one to each alteration, as if somebody had taken it that day. */
export async function addAlterationPictures(database: Database, photosDir: string, { people }: World): Promise<void> {
  const files = openPhotoFiles(photosDir)
  const drawn = await Promise.all(COLORS.map(async (color, seed) => {
    const [stored] = await storePictures(files, [await toPicture('drawn.png', await sharp(Buffer.from(panel(color, 900 + seed))).png({ compressionLevel: 1 }).toBuffer())])
    if (!stored) throw new Error('a drawn picture was not stored')
    return stored
  }))
  const alterations = await database.reads.alteration.findMany({ where: { what: { notIn: NOT_PHOTOGRAPHED } }, orderBy: { id: 'asc' }, select: { id: true, buildId: true, createdAt: true } })
  const { id: personId } = get(people, 's.penhale')
  const data = alterations.map(({ id, buildId, createdAt }, index) => ({
    ...(drawn[index % drawn.length] ?? drawn[0]), buildId, subjectKind: 'alteration', subjectId: id, personId, createdAt, caption: 'As it was made',
  }))
  await database.write(async (write) => {
    for (const row of data) await write.photo.create({ data: row as Parameters<typeof write.photo.create>[0]['data'] })
  })
}
