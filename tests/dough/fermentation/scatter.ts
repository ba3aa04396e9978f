/** Numbers that scatter like a normal distribution and are the same each time: a Lehmer generator, and Box and Muller's rule. */
export function scatter(seed: number) {
  let state = seed
  const uniform = () => {
    state = (state * 16807) % 2147483647
    return state / 2147483647
  }
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
}
