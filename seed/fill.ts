import type { Config } from '../server/config.ts'
import { hashDemoPassword } from '../server/people/passwords.ts'
import type { Database } from '../server/shared/database/database.ts'
import { addAccounts, addChangeOrder } from './accounts.ts'
import { addBuild } from './builds/addBuild.ts'
import { COUNTER_JOB } from './builds/counterJob.ts'
import { HATCHBACK } from './builds/hatchback.ts'
import { correctEntry, startTimer } from './builds/hours.ts'
import { PICKUP } from './builds/pickup/pickup.ts'
import { VAN } from './builds/van.ts'
import { addService } from './builds/wagon/service.ts'
import { WAGON } from './builds/wagon/wagon.ts'
import { addDaysOff, addMachinesAndFinishers } from './capacity.ts'
import { addCatalog } from './catalog.ts'
import { addCustomers } from './customers.ts'
import { daysAround } from './days.ts'
import { openDiary } from './diary.ts'
import { addDelivery, addScenes, addStory } from './delivery/addDelivery.ts'
import { addFittings } from './fittings.ts'
import { addKits } from './kits.ts'
import { addHistory } from './history/addHistory.ts'
import { agreeOn } from './history/agreeOn.ts'
import { HISTORY_CUSTOMERS } from './history/customers.ts'
import { addIntakes } from './intake/addIntakes.ts'
import { addPictures } from './intake/pictures.ts'
import { addMaterials } from './materials.ts'
import { addPeople } from './people.ts'
import { addAlterationPictures } from './alterationPictures.ts'
import { addPartPictures } from './partPictures.ts'
import { addPlan } from './plan.ts'
import { randomFrom } from './random.ts'
import { collectRows } from './rows.ts'
import { addSettings, SHOP } from './shop.ts'
import { addQuotes } from './quotes.ts'
import { addStockTake } from './stockTake.ts'
import { addSheets } from './sheets.ts'
import { addTakenOver } from './takenOver.ts'
import type { World } from './world.ts'

const YEARS_BACK = 1_300

/** What lies beside the database. */
export type Beside = Pick<Config, 'photosDir'>

/** Fills an empty database with the demo shop, as it stands on the day of `now`; pictures are drawn where there is a folder for them. */
export async function fillDemo(database: Database, now: Date, beside: Beside | null = null): Promise<void> {
  const days = daysAround(now)
  const rows = collectRows({ id: null, name: 'Setup', at: days.at(days.on(-YEARS_BACK), '09:00') })
  const settings = addSettings(rows)
  const people = addPeople(rows, settings, await hashDemoPassword())
  const capacity = addMachinesAndFinishers(rows)
  addDaysOff(rows, settings, people, days)
  const materials = addMaterials(rows)
  const kits = addKits(rows, materials)
  const catalog = addCatalog(rows, kits)
  addFittings(rows, settings, catalog, kits)
  const world: World = {
    rows, days, settings, people, capacity, random: randomFrom(240), diary: openDiary(days),
    materials, kits, catalog, vehicles: addCustomers(rows, HISTORY_CUSTOMERS),
  }
  await rows.store(database)
  const shop = { ...SHOP, restoreDepartmentId: settings.departments.get('Fitting') ?? null, laborTaxCodeId: settings.laborTaxId, materialTaxCodeId: settings.goodsTaxId }
  await database.write((write) => write.shop.upsert({ where: { id: 'shop' }, create: shop, update: shop }))
  for (const enter of BUILDS) {
    enter(world)
    await rows.store(database)
  }
  const closed = addHistory(world)
  await rows.store(database)
  await agreeOn(database, closed)
  await addQuotes(database, world)
  await addAccounts(database, world)
  await addChangeOrder(database, world)
  await addTakenOver(database, world)
  await addStockTake(database, world)
  const pictured = await addIntakes(database, world)
  const wagon = await addDelivery(database, world)
  if (beside) {
    await addPictures(database, beside.photosDir, pictured)
    await addAlterationPictures(database, beside.photosDir, world)
    await addPartPictures(database, beside.photosDir, world)
    await addScenes(database, beside.photosDir, world, wagon)
  }
  await addStory(database, wagon)
  await addSheets(database, world)
  await addPlan(database, world)
}

const BUILDS: readonly ((world: World) => void)[] = [
  (world) => addService(addBuild(world, WAGON)),
  (world) => {
    const desk = addBuild(world, PICKUP)
    correctEntry(desk, 'r.istead', 5_400, 'Lunch was in it.')
    startTimer(desk, 'j.maskell', 'P321:60', 83)
  },
  (world) => startTimer(addBuild(world, HATCHBACK), 's.penhale', 'E1:20', 19),
  (world) => addBuild(world, VAN),
  (world) => startTimer(addBuild(world, COUNTER_JOB), 'e.dunmoor', 'E1:20', 22),
]
