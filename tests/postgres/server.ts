import { GenericContainer, Wait } from "testcontainers"
import type { TestProject } from "vitest/node"

const password = "only-for-tests"

/** The server to test on: TEST_DATABASE_URL when it is set, otherwise one that Testcontainers starts and removes. */
export default async function server(project: TestProject) {
  if (process.env.TEST_DATABASE_URL) {
    project.provide("postgresUrl", process.env.TEST_DATABASE_URL)
    return
  }
  const container = await new GenericContainer("postgres:17")
    .withEnvironment({ POSTGRES_PASSWORD: password })
    .withExposedPorts(5432)
    // the first start only prepares the folder and restarts
    .withWaitStrategy(Wait.forLogMessage(/database system is ready to accept connections/, 2))
    .start()
  project.provide(
    "postgresUrl",
    `postgresql://postgres:${password}@${container.getHost()}:${container.getMappedPort(5432)}/postgres`,
  )
  return async () => {
    await container.stop()
  }
}
