import Database from 'better-sqlite3'
const db = new Database('/tmp/demo-graph/putback.db',{readonly:true})
for (const n of [231,240,58]) console.log(db.prepare('select id from Build where number=?').get(n).id)
