import { type ChildProcess, spawn } from "node:child_process"
import { once } from "node:events"
import { createServer } from "node:net"
import { setTimeout as wait } from "node:timers/promises"

export type Service = {
  url: string
  output: () => string
  /** Waits until the service has written what matches, and gives it. */
  said: (words: RegExp) => Promise<string>
  process: ChildProcess
  stop: (signal?: NodeJS.Signals) => Promise<number | null>
}

/** Starts the service as an operator would, and waits until it answers or ends. */
export async function startService(environment: Record<string, string>, script = "server/main.ts"): Promise<Service> {
  const port = await freePort()
  const child = spawn(process.execPath, ["--import", "tsx", script], {
    env: { ...process.env, HOST: "127.0.0.1", PORT: String(port), LOG_LEVEL: "error", ...environment },
    stdio: ["ignore", "pipe", "pipe"],
  })
  // a test that runs out of time never comes to stop it
  const end = () => child.kill("SIGKILL")
  process.once("exit", end)
  child.once("exit", () => process.off("exit", end))
  let output = ""
  for (const stream of [child.stdout, child.stderr]) stream.on("data", (text) => (output += text))
  // later than its end: what it wrote last is read then
  let closed = false
  child.once("close", () => {
    closed = true
  })
  const stop = async (signal: NodeJS.Signals = "SIGTERM") => {
    child.kill(signal)
    if (!closed) await once(child, "close")
    return child.exitCode
  }
  const said = async (words: RegExp) => {
    while (!closed && !words.test(output)) await wait(50)
    return words.exec(output)?.[0] ?? Promise.reject(new Error(`It never said ${words}, but: ${output}`))
  }
  const service = { url: `http://127.0.0.1:${port}`, output: () => output, said, process: child, stop }
  while (!closed && !(await answers(service.url))) await wait(50)
  return service
}

async function freePort() {
  const server = createServer().listen(0, "127.0.0.1")
  await once(server, "listening")
  const { port } = server.address() as { port: number }
  server.close()
  return port
}

async function answers(url: string) {
  return fetch(`${url}/healthz`).then(
    (response) => response.ok,
    () => false,
  )
}
