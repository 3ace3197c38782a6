package org.benchstroke.docs;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.commonmark.Extension;
import org.commonmark.ext.gfm.tables.TablesExtension;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.Block;
import org.commonmark.node.Code;
import org.commonmark.node.CustomNode;
import org.commonmark.node.FencedCodeBlock;
import org.commonmark.node.Heading;
import org.commonmark.node.Image;
import org.commonmark.node.Link;
import org.commonmark.node.Node;
import org.commonmark.node.SoftLineBreak;
import org.commonmark.node.Text;
import org.commonmark.parser.Parser;
import org.commonmark.renderer.html.AttributeProvider;
import org.commonmark.renderer.html.HtmlRenderer;

/**
 * The documents as one site of HTML pages that can be searched, from a folder or a server. A page
 * asks for nothing outside of the site. One thread.
 */
public final class Site {
  private static final List<Extension> TABLES = List.of(TablesExtension.create());
  private static final Parser PARSER = Parser.builder().extensions(TABLES).build();

  /** Of a page's text so much is searched: more than the longest page has. */
  private static final int MOST_SEARCHED = 100_000;

  private final Path sources;
  private final Path folder;
  private final String version;
  private final Set<Path> files = new LinkedHashSet<>();
  private final List<Map<String, String>> searched = new ArrayList<>();

  private Site(Path sources, Path folder, String version) {
    this.sources = sources;
    this.folder = folder;
    this.version = version;
  }

  /** Makes it: the top of the sources, the folder for it, the version that it shows. */
  public static void main(String[] args) throws IOException {
    int pages = make(Path.of(args[0]), Path.of(args[1]), args[2]);
    System.out.println("Site: " + pages + " pages in " + args[1]);
  }

  /** Makes it; gives how many pages it has. */
  static int make(Path sources, Path folder, String version) throws IOException {
    return new Site(sources, folder, version).make();
  }

  private int make() throws IOException {
    List<Path> pages = Pages.all();
    for (Path page : pages) {
      page(page);
    }
    for (Path file : files) {
      Path to = folder.resolve(file);
      Files.createDirectories(to.getParent());
      Files.copy(sources.resolve(file), to, StandardCopyOption.REPLACE_EXISTING);
    }
    write("site.css", resource("site.css"));
    write("search.js", resource("search.js"));
    write("pages.js", "const PAGES = " + new ObjectMapper().writeValueAsString(searched) + ";\n");
    write("search.html", framed(Path.of("search.html"), "Search", SEARCH));
    return pages.size();
  }

  private static final String SEARCH =
      """
      <h1>Search</h1>
      <noscript><p>Searching needs JavaScript; nothing leaves this computer.</p></noscript>
      <p id="count" role="status"></p>
      <ol id="found"></ol>
      <script src="pages.js"></script>
      <script src="search.js"></script>
      """;

  private static String resource(String name) throws IOException {
    try (var in = Site.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  private void page(Path page) throws IOException {
    Node document = PARSER.parse(Files.readString(sources.resolve(page)));
    StringBuilder text = new StringBuilder();
    document.accept(new Words(text));
    Path to = html(page);
    HtmlRenderer renderer =
        HtmlRenderer.builder()
            .extensions(TABLES)
            .escapeHtml(true)
            .attributeProviderFactory(context -> attributes(page))
            .build();
    String title = title(document);
    write(to.toString(), framed(to, title, renderer.render(document)));
    Map<String, String> entry = new LinkedHashMap<>();
    entry.put("page", slashed(to));
    entry.put("title", title);
    entry.put("text", text.substring(0, Math.min(text.length(), MOST_SEARCHED)));
    searched.add(entry);
  }

  /** A page's place: README.md is the page of its folder. */
  private static Path html(Path page) {
    String name = page.getFileName().toString();
    String html = name.equals("README.md") ? "index.html" : name.replaceFirst("\\.md$", ".html");
    Path place = page.resolveSibling(html);
    // A server hides what begins with a dot.
    return place.startsWith(".github") ? Path.of("project").resolve(place.getFileName()) : place;
  }

  private static String slashed(Path path) {
    return path.toString().replace('\\', '/');
  }

  private AttributeProvider attributes(Path page) {
    return (node, tag, attributes) -> {
      if (node instanceof Heading) {
        attributes.put("id", anchor(words(node)));
      } else if (node instanceof Link link && tag.equals("a")) {
        attributes.put("href", target(page, link.getDestination()));
      } else if (node instanceof Image image) {
        attributes.put("src", target(page, image.getDestination()));
      } else if (tag.equals("pre")) {
        attributes.put("tabindex", "0");
      }
    };
  }

  /** As the pages of the repository make their anchors: see {@link Pages#anchors}. */
  private static String anchor(String heading) {
    return heading.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N} _-]", "").replace(' ', '-');
  }

  /** Where a link leads in the site; a file that is no page comes along. */
  private String target(Path page, String link) {
    if (link.contains("://") || link.startsWith("#")) {
      return link;
    }
    int hash = link.indexOf('#');
    String fragment = hash < 0 ? "" : link.substring(hash);
    String path = hash < 0 ? link : link.substring(0, hash);
    Path file = parent(page).resolve(path).normalize();
    boolean isPage = path.endsWith(".md");
    if (!isPage) {
      files.add(file);
    }
    return slashed(parent(html(page)).relativize(isPage ? html(file) : file)) + fragment;
  }

  private static Path parent(Path file) {
    return file.getParent() == null ? Path.of("") : file.getParent();
  }

  private static String title(Node document) {
    for (Node node = document.getFirstChild(); node != null; node = node.getNext()) {
      if (node instanceof Heading) {
        return words(node);
      }
    }
    return "benchstroke";
  }

  private static String words(Node node) {
    StringBuilder text = new StringBuilder();
    node.accept(new Words(text));
    return text.toString().strip();
  }

  private String framed(Path place, String title, String body) {
    String up = "../".repeat(place.getNameCount() - 1);
    return """
    <!DOCTYPE html>
    <html lang="en">
    <head>
    <meta charset="utf-8">
    <meta name="viewport" content="width=device-width, initial-scale=1">
    <title>%1$s – benchstroke</title>
    <link rel="stylesheet" href="%2$ssite.css">
    </head>
    <body>
    <a class="skip" href="#content">To the page</a>
    <header>
    <nav aria-label="Site">
    <a href="%2$sindex.html">benchstroke</a>
    <a href="%2$sdocs/index.html">Documents</a>
    <a href="%2$sdocs/reference/commands.html">Commands</a>
    <a href="%2$sdocs/changelog.html">Changes</a>
    </nav>
    <form action="%2$ssearch.html" role="search">
    <label for="q">Search</label> <input id="q" name="q" type="search"> <button>Find</button>
    </form>
    </header>
    <main id="content">
    %3$s</main>
    <footer>benchstroke %4$s</footer>
    </body>
    </html>
    """
        .formatted(escaped(title), up, body, escaped(version));
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }

  private void write(String name, String text) throws IOException {
    Path file = folder.resolve(name);
    Files.createDirectories(file.getParent());
    Files.writeString(file, text);
  }

  /** The words of a node, for an anchor, a title or the search. */
  private static final class Words extends AbstractVisitor {
    private final StringBuilder text;

    Words(StringBuilder text) {
      this.text = text;
    }

    @Override
    public void visit(Text node) {
      text.append(node.getLiteral());
    }

    @Override
    public void visit(Code node) {
      text.append(node.getLiteral());
    }

    @Override
    public void visit(FencedCodeBlock node) {
      text.append(' ').append(node.getLiteral()).append(' ');
    }

    @Override
    public void visit(SoftLineBreak node) {
      text.append(' ');
    }

    @Override
    protected void visitChildren(Node parent) {
      super.visitChildren(parent);
      if (parent instanceof Block || parent instanceof CustomNode) {
        text.append(' ');
      }
    }
  }
}
