import t from 'tap'
import { Agent, request } from 'node:http'
import { setTimeout as pause } from 'node:timers/promises'
import { holderOf, lockData } from '../../server/shared/database/lock.ts'
import { readAllRows } from '../support/rows.ts'
import { keepWriting, newData, postCustomer, run, startServer, type RunningServer } from '../support/server.ts'

t.test('a server killed under writes has every acknowledged record, once, when it starts again', async (t) => {
  const { dataDir, file, token } = await newData(t)
  const first = await startServer(t, dataDir)
  const writing = keepWriting(first.address, token)
  while (writing.acknowledged.size < 40) await pause(10)
  t.equal(holderOf(file), first.pid)
  const second = await run('server/main.ts', [], dataDir)
  t.equal(second.code, 1, 'a second server on the same data refuses')
  t.match(second.output, `is served by process ${first.pid} already. Stop it first.`)
  first.signal('SIGKILL')
  await first.ended
  await writing.stop()
  t.equal(holderOf(file), null, 'a killed server holds nothing')

  const again = await startServer(t, dataDir)
  for (const name of writing.unknown) writing.acknowledged.set(name, (await postCustomer(again.address, token, name)).id)
  const rows = readAllRows(file)
  const stored = rows.Customer?.map((row) => [row.name, row.id])
  t.same(stored?.sort(), [...writing.acknowledged].sort(), `${writing.acknowledged.size} records stand once`)
  t.same(rows.AuditEntry?.map((row) => row.recordId).sort(), [...writing.acknowledged.values()].sort(), 'each with its history')

  await t.test('told to stop, it finishes the request under way and ends well', async (t) => {
    const slow = slowly(again, token)
    await slow.isHalfSent
    const asked = performance.now()
    again.signal('SIGTERM')
    await pause(300)
    slow.finish()
    t.equal(await slow.status, 201)
    const { code, output } = await again.ended
    t.equal(code, 0)
    t.ok(performance.now() - asked < 10_000)
    t.match(output, 'stopping')
    t.ok(readAllRows(file).Customer?.some((row) => row.name === 'In flight'))
    t.equal(holderOf(file), null)
  })
})

t.test('the data can be locked again after its holder let go', async (t) => {
  const { file } = await newData(t)
  const release = await lockData(file)
  await t.rejects(lockData(file), /served by process/)
  release()
  t.equal(holderOf(file), null)
  ;(await lockData(file))()
})

/** A request whose body is sent in two halves. */
function slowly(server: RunningServer, token: string): { isHalfSent: Promise<void>; finish(): void; status: Promise<number | undefined> } {
  const body = JSON.stringify({ name: 'In flight' })
  // Browsers hold their connections open for minutes.
  const agent = new Agent({ keepAlive: true, timeout: 60_000 })
  const half = request(`${server.address}/api/customers`, {
    method: 'POST', agent, headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json', 'content-length': body.length },
  })
  const status = new Promise<number | undefined>((resolve, reject) => {
    half.on('response', (answer) => {
      answer.resume()
      resolve(answer.statusCode)
    }).on('error', reject)
  })
  half.write(body.slice(0, 10))
  return { isHalfSent: pause(300), finish: () => half.end(body.slice(10)), status }
}
