const icon = (src: string, sizes: string, purpose = "any") => ({ src, sizes, purpose, type: "image/png" })

/** How phones install us. Its colours are those of static/oven.css: flour, and the indigo of the cloth. */
export const manifest = {
  id: "/",
  name: "Common Oven",
  short_name: "Oven",
  lang: "en",
  start_url: "/",
  scope: "/",
  display: "standalone",
  background_color: "#fbfaf6",
  theme_color: "#25406e",
  icons: [
    icon("/assets/icon-192.png", "192x192"),
    icon("/assets/icon-512.png", "512x512"),
    icon("/assets/icon-maskable-512.png", "512x512", "maskable"),
  ],
}
