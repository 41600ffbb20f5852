/** Prints sheets (SVG with their letters in it), one a page, each at its own size in millimetres: 100 mm on paper are 100 mm. */
export async function printSheets(files: readonly { bytes: Uint8Array | string }[]): Promise<void> {
  document.querySelector(".print-sheets")?.remove();
  const holder = document.createElement("div");
  holder.className = "print-sheets";
  const urls: string[] = [];
  const rules: string[] = [];
  for (const [i, { bytes }] of files.entries()) {
    const text = typeof bytes === "string" ? bytes : new TextDecoder().decode(bytes);
    const size = /<svg [^>]*width="([\d.]+)mm" height="([\d.]+)mm"/.exec(text);
    if (!size) continue;
    const [, width, height] = size;
    const image = document.createElement("img");
    image.src = URL.createObjectURL(new Blob([text], { type: "image/svg+xml" }));
    urls.push(image.src);
    image.alt = "";
    image.style.width = `${width}mm`;
    image.style.height = `${height}mm`;
    // Papers of several sizes in one run: each its own page.
    image.style.setProperty("page", `sheet${i}`);
    rules.push(`@page sheet${i} { size: ${width}mm ${height}mm; margin: 0; }`);
    holder.append(image);
  }
  const pages = new CSSStyleSheet();
  pages.replaceSync(rules.join("\n"));
  document.body.append(holder);
  await Promise.all([...holder.querySelectorAll("img")].map((image) => image.decode()));
  const before = document.adoptedStyleSheets;
  document.adoptedStyleSheets = [...before, pages];
  document.documentElement.classList.add("printing");
  const done = () => {
    document.documentElement.classList.remove("printing");
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((sheet) => sheet !== pages);
    holder.remove();
    for (const url of urls) URL.revokeObjectURL(url);
  };
  window.addEventListener("afterprint", done, { once: true });
  window.print();
}
