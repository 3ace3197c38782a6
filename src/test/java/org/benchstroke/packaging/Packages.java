package org.benchstroke.packaging;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.benchstroke.cli.CommandLines;
import picocli.AutoComplete;
import picocli.CommandLine;

/**
 * Makes what people install, from the jar: a folder with a Java of its own, packed as tar.gz and as
 * a package for Debian; on Windows and macOS what jpackage makes there. Arguments: the build's
 * folder, the version, the time that every file gets.
 */
public final class Packages {
  /** What jdeps lists of the jar, with what is found by name only: ciphers, text, zip files. */
  private static final String MODULES =
      "java.base,java.desktop,java.logging,java.management,java.naming,java.security.jgss,"
          + "java.sql,java.xml,jdk.charsets,jdk.crypto.ec,jdk.jfr,jdk.localedata,jdk.unsupported,"
          + "jdk.zipfs";

  private static final String MAIN = "org.benchstroke.cli.Main";
  private static final Path SOURCES = Path.of("src/package");

  private final Path build;
  private final Path work;
  private final String version;
  private final Instant time;

  private Packages(Path build, String version, Instant time) {
    this.build = build;
    this.work = build.resolve("package");
    this.version = version;
    this.time = time;
  }

  /** Makes the packages of this system. */
  public static void main(String[] args) throws Exception {
    Packages packages = new Packages(Path.of(args[0]), args[1], Instant.parse(args[2]));
    String system = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
    delete(packages.work);
    Files.createDirectories(packages.work);
    packages.runtime();
    if (system.startsWith("linux")) {
      packages.linux();
    } else {
      packages.elsewhere(system.startsWith("mac") ? "dmg" : "msi");
    }
  }

  /** A Java of the modules that the program needs, with its own archive of classes. */
  private void runtime() throws Exception {
    Path runtime = work.resolve("runtime");
    run(
        tool("jlink"),
        "--add-modules",
        MODULES,
        "--strip-debug",
        "--no-header-files",
        "--no-man-pages",
        "--output",
        runtime.toString());
    run(runtime.resolve("bin/java").toString(), "-Xshare:dump", "-Xlog:disable");
  }

  private void linux() throws Exception {
    Path root = work.resolve("root");
    Path home = root.resolve("opt/benchstroke");
    move(work.resolve("runtime"), home.resolve("runtime"));
    copy(build.resolve("benchstroke.jar"), home.resolve("lib/benchstroke.jar"));
    copy(SOURCES.resolve("benchstroke.sh"), home.resolve("bin/benchstroke"));
    copy(SOURCES.resolve("in-terminal.sh"), home.resolve("lib/in-terminal.sh"));
    papers(home.resolve("share/doc/benchstroke"));
    pages(home.resolve("share/man/man1"));
    joined(home.resolve("share"));
    settled(root);
    archiveOfClasses(root);
    settled(root);
    pack(root, home);
    debian(root, home);
  }

  /** Licences of all that is inside, and the list of it. */
  private void papers(Path folder) throws Exception {
    Path classes = build.resolve("classes/META-INF");
    copy(classes.resolve("LICENSE"), folder.resolve("copyright"));
    copy(classes.resolve("NOTICE"), folder.resolve("NOTICE"));
    copyAll(classes.resolve("licenses"), folder.resolve("licenses"));
    eachHasALicence(classes.resolve("licenses"));
    copy(build.resolve("bom.json"), folder.resolve("bom.cdx.json"));
    copy(Path.of("docs/changelog.md"), folder.resolve("changelog.md"));
  }

  /** Each part's text is there, or the list says where it is. */
  private void eachHasALicence(Path texts) throws IOException {
    String list = Files.readString(texts.resolve("README.txt"));
    JsonNode parts = new ObjectMapper().readTree(build.resolve("bom.json").toFile());
    for (JsonNode part : parts.required("components")) {
      String name = part.required("name").asText();
      boolean named = Pattern.compile("\\b" + Pattern.quote(name) + "\\b").matcher(list).find();
      if (!named && !hasLicence(texts.resolve(name + "-jar"))) {
        throw new IOException(
            name + " has no licence text: put it into src/main/resources/META-INF/licenses");
      }
    }
  }

  private static boolean hasLicence(Path folder) throws IOException {
    if (!Files.exists(folder)) {
      return false;
    }
    try (Stream<Path> files = Files.walk(folder)) {
      return files.anyMatch(file -> file.getFileName().toString().contains("LICENSE"));
    }
  }

  private void pages(Path folder) throws IOException {
    Files.createDirectories(folder);
    for (CommandLine line : withAllBelow(CommandLines.all()).toList()) {
      String page = ManPage.of(line, "benchstroke " + version);
      Files.writeString(folder.resolve(ManPage.file(line)), page);
    }
  }

  private static Stream<CommandLine> withAllBelow(CommandLine line) {
    return Stream.concat(
        Stream.of(line),
        line.getSubcommands().values().stream().distinct().flatMap(Packages::withAllBelow));
  }

  /** What joins it to the shell and the desktop. */
  private void joined(Path share) throws IOException {
    Path bash = share.resolve("bash-completion/completions/benchstroke");
    Files.createDirectories(bash.getParent());
    Files.writeString(bash, AutoComplete.bash("benchstroke", CommandLines.all()));
    copy(SOURCES.resolve("_benchstroke"), share.resolve("zsh/vendor-completions/_benchstroke"));
    copy(SOURCES.resolve("benchstroke.desktop"), share.resolve("applications/benchstroke.desktop"));
    Path icons = share.resolve("icons/hicolor");
    copy(SOURCES.resolve("benchstroke.svg"), icons.resolve("scalable/apps/benchstroke.svg"));
    copy(SOURCES.resolve("benchstroke.png"), icons.resolve("256x256/apps/benchstroke.png"));
  }

  /**
   * The archive of classes holds the path of the jar, and Java takes it only where that is the
   * same: so the folder is shown at its later place, to this one process and to nobody else.
   */
  private void archiveOfClasses(Path root) throws Exception {
    String script = SOURCES.resolve("archive-of-classes.sh").toString();
    String opt = root.resolve("opt").toAbsolutePath().toString();
    String training = work.resolve("training").toAbsolutePath().toString();
    int code = exit("unshare", "-r", "-m", "sh", script, opt, training);
    if (!Files.exists(root.resolve("opt/benchstroke/lib/benchstroke.jsa"))) {
      System.out.println(
          "no archive of classes: unshare ended with "
              + code
              + " (user namespaces are needed);"
              + " the program starts a little slower");
    }
  }

  private void pack(Path root, Path home) throws Exception {
    String name = "benchstroke-" + version + "-linux-" + machine() + ".tar.gz";
    run(
        "tar",
        "--create",
        "--gzip",
        "--sort=name",
        "--owner=0",
        "--group=0",
        "--numeric-owner",
        "--file",
        work.resolve(name).toString(),
        "--directory",
        root.resolve("opt").toString(),
        home.getFileName().toString());
    System.out.println(work.resolve(name));
  }

  /** By dpkg-deb alone: nothing is run when it is installed, so nothing is left when it goes. */
  private void debian(Path root, Path home) throws Exception {
    if (!isThere("dpkg-deb")) {
      System.out.println("no package for Debian: dpkg-deb is not installed");
      return;
    }
    move(home.resolve("share"), root.resolve("usr/share"));
    Files.createDirectories(root.resolve("usr/bin"));
    Files.createSymbolicLink(
        root.resolve("usr/bin/benchstroke"), Path.of("/opt/benchstroke/bin/benchstroke"));
    run("sh", "-c", "gzip -9n \"$1\"/*.1", "sh", root.resolve("usr/share/man/man1").toString());
    Path control = root.resolve("DEBIAN/control");
    Files.createDirectories(control.getParent());
    Files.writeString(control, control(kilobytes(root)));
    settled(root);
    String name = "benchstroke_" + debianVersion() + "_" + machine() + ".deb";
    run(
        "dpkg-deb",
        "--root-owner-group",
        "-Zxz",
        "-z1",
        "--build",
        root.toString(),
        work.resolve(name).toString());
    System.out.println(work.resolve(name));
  }

  /** A snapshot comes before its release: dpkg sorts a tilde so. */
  private String debianVersion() {
    return version.replace('-', '~');
  }

  /** Three numbers, the first of them at least 1: macOS takes no other. */
  private String plainVersion() {
    String release = version.replaceFirst("-.*", "");
    return release.startsWith("0.") ? "1" + release.substring(1) : release;
  }

  private String control(long kilobytes) throws Exception {
    return String.join(
        "\n",
        "Package: benchstroke",
        "Version: " + debianVersion(),
        "Architecture: " + machine(),
        "Maintainer: The benchstroke authors <benchstroke@invalid.invalid>",
        "Installed-Size: " + kilobytes,
        "Depends: libc6, zlib1g",
        "Recommends: libfreetype6, fontconfig",
        "Section: science",
        "Priority: optional",
        "Description: bench tester for motorised valve actuators",
        " Steps a signal source through setpoints, reads the position back, judges what",
        " it measured with its uncertainty, and leaves a record and a report.",
        "");
  }

  /** What jpackage makes on Windows (msi, by WiX) and macOS (dmg). */
  private void elsewhere(String type) throws Exception {
    Path input = work.resolve("input");
    copy(build.resolve("benchstroke.jar"), input.resolve("benchstroke.jar"));
    papers(input.resolve("doc"));
    List<String> command =
        new ArrayList<>(
            List.of(
                tool("jpackage"),
                "--type",
                type,
                "--name",
                "benchstroke",
                "--app-version",
                plainVersion(),
                "--dest",
                work.toString(),
                "--input",
                input.toString(),
                "--runtime-image",
                work.resolve("runtime").toString(),
                "--main-jar",
                "benchstroke.jar",
                "--main-class",
                MAIN,
                "--license-file",
                build.resolve("classes/META-INF/LICENSE").toString()));
    for (String option :
        List.of(
            "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Dbenchstroke.program=benchstroke")) {
      command.addAll(List.of("--java-options", option));
    }
    if (type.equals("msi")) {
      command.addAll(List.of("--win-console", "--win-menu", "--win-per-user-install"));
    }
    run(command.toArray(String[]::new));
  }

  /** Debian's word for it: amd64, arm64. */
  private static String machine() {
    String machine = System.getProperty("os.arch", "");
    return machine.equals("aarch64") ? "arm64" : machine;
  }

  private static String tool(String name) {
    return Path.of(System.getProperty("java.home", ""), "bin", name).toString();
  }

  private static boolean isThere(String program) {
    String path = Optional.ofNullable(System.getenv("PATH")).orElse("");
    return Arrays.stream(path.split(":", -1))
        .anyMatch(folder -> Files.isExecutable(Path.of(folder, program)));
  }

  private static void run(String... command) throws Exception {
    int code = exit(command);
    if (code != 0) {
      throw new IOException(command[0] + " ended with " + code);
    }
  }

  private static int exit(String... command) throws Exception {
    return new ProcessBuilder(command).inheritIO().start().waitFor();
  }

  private static void move(Path from, Path to) throws IOException {
    Files.createDirectories(to.getParent());
    Files.move(from, to);
  }

  private static void copy(Path from, Path to) throws IOException {
    Files.createDirectories(to.getParent());
    Files.copy(from, to, StandardCopyOption.REPLACE_EXISTING);
  }

  private static void copyAll(Path from, Path to) throws IOException {
    try (Stream<Path> files = Files.walk(from)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        copy(file, to.resolve(from.relativize(file).toString()));
      }
    }
  }

  /** The same rights and the same time wherever it is built; the archive of classes needs both. */
  private void settled(Path root) throws IOException {
    FileTime when = FileTime.from(time);
    try (Stream<Path> files = Files.walk(root)) {
      for (Path file : files.filter(file -> !Files.isSymbolicLink(file)).toList()) {
        boolean runs =
            Files.isDirectory(file)
                || file.toString().endsWith(".sh")
                || file.getParent().endsWith("bin")
                || file.endsWith("jspawnhelper")
                || file.endsWith("jexec");
        Files.setPosixFilePermissions(
            file, PosixFilePermissions.fromString(runs ? "rwxr-xr-x" : "rw-r--r--"));
        Files.setLastModifiedTime(file, when);
      }
    }
  }

  private static long kilobytes(Path root) throws IOException {
    long bytes = 0;
    try (Stream<Path> files = Files.walk(root)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        bytes += Files.size(file);
      }
    }
    return bytes / 1024;
  }

  private static void delete(Path folder) throws IOException {
    if (!Files.exists(folder)) {
      return;
    }
    Files.walkFileTree(
        folder,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes about)
              throws IOException {
            Files.delete(file);
            return FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult postVisitDirectory(Path done, IOException failure)
              throws IOException {
            Files.delete(done);
            return FileVisitResult.CONTINUE;
          }
        });
  }
}
