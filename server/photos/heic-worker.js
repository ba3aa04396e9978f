// Decodes one HEIC picture in a thread of its own, which is ended afterwards. Plain JavaScript, because Node 20 starts a
// thread without any loader.
import { parentPort, workerData } from "node:worker_threads"
import libheif from "libheif-js/wasm-bundle.js"

const { heic, room, mostPixels, mostMemory } = workerData

// WebAssembly's memory lies outside the heap that resourceLimits bound; where it may not grow, the decoder gives up
let tooLittle = false
const { grow } = WebAssembly.Memory.prototype
WebAssembly.Memory.prototype.grow = function (pages) {
  tooLittle = this.buffer.byteLength + pages * 65_536 > mostMemory
  if (tooLittle) throw new RangeError("The memory may not grow so far.")
  return grow.call(this, pages)
}

try {
  const picture = decode()
  parentPort.postMessage(picture, [picture.file])
} catch (error) {
  parentPort.postMessage({ failed: tooLittle ? "memory limit" : error.message })
}

/** The primary picture, upright by its own boxes, as rows of RGB or RGBA after `room` free bytes. */
function decode() {
  const context = libheif.heif_context_alloc()
  succeeded(libheif.heif_context_read_from_memory(context, heic))
  const handle = succeeded(libheif.heif_js_context_get_primary_image_handle(context))
  const [width, height] = [libheif.heif_image_handle_get_width(handle), libheif.heif_image_handle_get_height(handle)]
  if (width * height > mostPixels) throw new Error("pixel limit")

  const channels = libheif.heif_image_handle_has_alpha_channel(handle) ? 4 : 3
  const { heif_chroma_interleaved_RGB: rgb, heif_chroma_interleaved_RGBA: rgba } = libheif.heif_chroma
  const { heif_colorspace_RGB: colours } = libheif.heif_colorspace
  const decoded = succeeded(libheif.heif_js_decode_image2(handle, colours, channels === 4 ? rgba : rgb))
  const { data, stride } = decoded.channels[0]

  const row = width * channels
  const file = new Uint8Array(room + row * height)
  for (let y = 0; y < height; y++) file.set(data.subarray(y * stride, y * stride + row), room + y * row)
  return { file: file.buffer, width, height, channels }
}

/** What libheif answers is either what was asked for or an error with a code. */
function succeeded(answer) {
  if (answer?.code !== undefined && answer.code !== libheif.heif_error_code.heif_error_Ok)
    throw new Error(answer.message)
  return answer
}
