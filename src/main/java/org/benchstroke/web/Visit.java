package org.benchstroke.web;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.InputStream;
import java.util.List;
import java.util.Optional;

/** One request, admitted, and its answer. The thread of the request. */
public final class Visit {
  private static final String HTML = "text/html; charset=utf-8";

  private final Context context;
  private final Visitor visitor;
  private final Access access;
  private final Face face;
  private final String authoriser;

  Visit(Context context, Visitor visitor, Access access, Face face) {
    this(context, visitor, access, face, "");
  }

  private Visit(Context context, Visitor visitor, Access access, Face face, String authoriser) {
    this.context = context;
    this.visitor = visitor;
    this.access = access;
    this.face = face;
    this.authoriser = authoriser;
  }

  /** The same, authorised by a supervisor. */
  Visit authorisedBy(String supervisor) {
    return new Visit(context, visitor, access, face, supervisor);
  }

  /** Who sends it. */
  public Visitor who() {
    return visitor;
  }

  /** The supervisor who authorises what is asked for; empty where nothing has to be authorised. */
  public String authoriser() {
    return authoriser;
  }

  /** Who may authorise something, to be asked for in a form: {@code web/supervisor.jte}. */
  public Access.Supervision supervision() {
    return access.supervision();
  }

  /**
   * Who authorises what this form asks for, where it is only sometimes needed.
   *
   * @throws Refusal if nobody does
   */
  public String mustBeAuthorised() throws Refusal {
    return access.authoriser(context);
  }

  /** Whether a browser is still there: it has a page open that sees live data. */
  public boolean isThere(String browser) {
    return access.watches(browser);
  }

  /** A part of the address: "serial" of "/unit/{serial}". */
  public String path(String name) {
    return context.pathParam(name);
  }

  /** What stands after the question mark of the address; empty if it does not, or is blank. */
  public Optional<String> query(String name) {
    return words(context.queryParam(name));
  }

  /** A field of the form that was sent; empty if it is not there, or blank. */
  public Optional<String> form(String name) {
    return words(context.formParam(name));
  }

  private static Optional<String> words(String text) {
    return Optional.ofNullable(text).map(String::strip).filter(t -> !t.isEmpty());
  }

  /** What stands around a page that answers this. */
  public Layout layout(String title, String here) {
    return new Layout(
        title,
        here,
        face.title(),
        face.ways(),
        visitor.name(),
        access.token(context),
        face.simulated(),
        List.of(),
        visitor.may(Right.DRIVE) ? "/stop" : "");
  }

  /**
   * Answers with a page.
   *
   * @param template below {@code src/main/jte}: "web/stations.jte"
   * @param page its model
   */
  public void show(String template, Object page) {
    context.html(face.rendered(template, page)).contentType(HTML);
  }

  /** Answers a form that was not done, with a page that says what it wants. */
  public void refuse(String template, Object page) {
    context.status(HttpStatus.FORBIDDEN);
    show(template, page);
  }

  /** Answers a form that was done: the browser goes on to a page. */
  public void goTo(String path) {
    context.redirect(path, HttpStatus.SEE_OTHER);
  }

  /**
   * Answers with a document that stands by itself and has its own styles, a report for one. No
   * script of it runs, and it can send nothing, whatever is in it.
   */
  public void document(String html) {
    context.header(
        "Content-Security-Policy",
        "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; base-uri"
            + " 'none'; form-action 'none'; frame-ancestors 'none'; sandbox");
    context.html(html).contentType(HTML);
  }

  /** Answers with JSON. */
  public void json(String text) {
    context.contentType("application/json; charset=utf-8").result(text);
  }

  /** Answers that it was done; there is nothing to say. */
  public void done() {
    context.status(HttpStatus.NO_CONTENT);
  }

  /**
   * Answers with a file to be kept.
   *
   * @param name what it is to be called; letters, digits, dots and hyphens of it are kept
   */
  public void download(String name, String contentType, byte[] bytes) {
    context.header("Content-Disposition", attachment(name));
    context.contentType(contentType).result(bytes);
  }

  /**
   * Likewise, of any size: it is handed on as it is read.
   *
   * @param stream closed when it is sent
   * @param length of it, bytes
   */
  public void download(String name, String contentType, InputStream stream, long length) {
    context.header("Content-Disposition", attachment(name));
    context.contentType(contentType);
    context.res().setContentLengthLong(length);
    context.result(stream);
  }

  private static String attachment(String name) {
    return "attachment; filename=\"" + name.replaceAll("[^A-Za-z0-9._-]", "_") + "\"";
  }

  /** What is below, for what this has no word for. */
  public Context context() {
    return context;
  }
}
