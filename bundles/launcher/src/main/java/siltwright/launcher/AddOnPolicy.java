package siltwright.launcher;

import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.security.CodeSigner;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.CertPath;
import java.security.cert.CertPathValidator;
import java.security.cert.Certificate;
import java.security.cert.CertificateFactory;
import java.security.cert.PKIXParameters;
import java.security.cert.X509Certificate;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Date;
import java.util.List;
import java.util.Properties;
import java.util.regex.Pattern;

/**
 * Which add-ons are taken, and how long one may be silent: the file {@value #FILE} beside the
 * product, a properties file. Without it every add-on is taken that nobody else can have put there.
 *
 * <ul>
 *   <li>{@code signed-only}: true takes only those that a trusted certificate vouches for
 *   <li>{@code trusted}: key store (PKCS12 or JKS) that holds the trusted certificates; a relative
 *       name starts at the policy's folder
 *   <li>{@code trusted-password}: its password, where it has one
 *   <li>{@code start-limit_s}: seconds within which an add-on has to start
 *   <li>{@code silence-limit_s}: seconds without progress after which a run is given up
 * </ul>
 *
 * @param signedOnly whether only signed add-ons of trusted signers are taken
 * @param trusted the trusted certificates; null if there are none
 * @param startLimit how long a start may last
 * @param silenceLimit how long a run may be silent
 */
record AddOnPolicy(
    boolean signedOnly, KeyStore trusted, Duration startLimit, Duration silenceLimit) {
  static final String FILE = "addons.properties";

  private static final int LARGEST = 1 << 16;
  private static final Pattern NAME_OF_A_CLASS = Pattern.compile("java[a-z.]*[.][A-Z]\\w*: ");
  private static final List<String> KEYS =
      List.of("signed-only", "trusted", "trusted-password", "start-limit_s", "silence-limit_s");

  static final AddOnPolicy USUAL =
      new AddOnPolicy(false, null, Duration.ofSeconds(10), Duration.ofSeconds(120));

  /**
   * Reads the policy.
   *
   * @param file the file; need not exist
   * @throws LaunchException if something in it is at fault: no policy is guessed
   */
  static AddOnPolicy read(Path file) throws LaunchException {
    if (Files.notExists(file, LinkOption.NOFOLLOW_LINKS)) { // a link to nowhere is a policy lost
      return USUAL;
    }
    Keys given = new Keys();
    try {
      String unsafe = Places.fault(file);
      if (unsafe != null) {
        throw new LaunchException("policy " + file + " is not safe: " + unsafe);
      }
      given.load(new StringReader(text(file)));
    } catch (CharacterCodingException e) {
      throw new LaunchException(file + ": found bytes that are no text, expected UTF-8", e);
    } catch (IOException | IllegalArgumentException e) {
      throw new LaunchException("policy " + file + " cannot be read: " + e.getMessage(), e);
    }
    for (String key : given.stringPropertyNames()) {
      if (!KEYS.contains(key)) {
        // the value is not repeated: it may be a password
        throw new LaunchException(
            file
                + ": found key "
                + Feature.shown(key)
                + ", expected one of "
                + String.join(", ", KEYS));
      }
    }
    if (given.twice != null) {
      throw new LaunchException(
          file + ": found " + Feature.shown(given.twice) + " twice, expected it once");
    }
    boolean signedOnly = flag(file, "signed-only", given);
    KeyStore trusted = given.containsKey("trusted") ? trusted(file, given) : null;
    if (signedOnly && trusted == null) {
      throw fault(file, "signed-only", given, "trusted beside it, a key store of certificates");
    }
    return new AddOnPolicy(
        signedOnly,
        trusted,
        seconds(file, "start-limit_s", given, USUAL.startLimit()),
        seconds(file, "silence-limit_s", given, USUAL.silenceLimit()));
  }

  /** What is given, and a key that is given twice: which of the two counts is not guessed. */
  private static final class Keys extends Properties {
    private static final long serialVersionUID = 1L;
    private String twice;

    @Override
    public synchronized Object put(Object key, Object value) {
      twice = containsKey(key) ? key.toString() : twice;
      return super.put(key, value);
    }
  }

  private static String text(Path file) throws IOException, LaunchException {
    byte[] bytes;
    try (InputStream in = Files.newInputStream(file)) {
      bytes = in.readNBytes(LARGEST + 1);
    }
    if (bytes.length > LARGEST) {
      throw new LaunchException(
          file + ": found more than " + LARGEST + " bytes, expected at most that");
    }
    String text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
    return text.startsWith("\uFEFF") ? text.substring(1) : text;
  }

  private static LaunchException fault(Path file, String key, Properties given, String expected) {
    return new LaunchException(
        file
            + ", "
            + key
            + ": found "
            + Feature.shown(given.getProperty(key, "nothing"))
            + ", expected "
            + expected);
  }

  private static boolean flag(Path file, String key, Properties given) throws LaunchException {
    String text = given.getProperty(key, "false").strip();
    if (!text.equals("true") && !text.equals("false")) {
      throw fault(file, key, given, "true or false");
    }
    return text.equals("true");
  }

  private static Duration seconds(Path file, String key, Properties given, Duration usual)
      throws LaunchException {
    String text = given.getProperty(key);
    if (text == null) {
      return usual;
    }
    if (!text.strip().matches("[1-9][0-9]{0,5}")) {
      throw fault(file, key, given, "whole seconds from 1 to 999999");
    }
    return Duration.ofSeconds(Long.parseLong(text.strip()));
  }

  private static KeyStore trusted(Path file, Properties given) throws LaunchException {
    String password = given.getProperty("trusted-password");
    try {
      Path store = file.resolveSibling(given.getProperty("trusted").strip());
      String unsafe = Places.fault(store);
      if (unsafe != null) {
        throw fault(file, "trusted", given, "a key store that is safe: " + unsafe);
      }
      KeyStore keys =
          KeyStore.getInstance(store.toFile(), password == null ? null : password.toCharArray());
      if (keys.size() == 0) { // so is one of certificates to whoever has no password
        throw fault(file, "trusted", given, "a key store of certificates; is its password given?");
      }
      return keys;
    } catch (IOException | GeneralSecurityException | IllegalArgumentException e) {
      String why = e.getMessage() == null ? "it is damaged" : Feature.shown(e.getMessage());
      throw fault(
          file,
          "trusted",
          given,
          "a key store that can be read (" + NAME_OF_A_CLASS.matcher(why).replaceAll("") + ")");
    }
  }

  /** Returns whether a trusted certificate vouches for one of the signers. */
  boolean trusts(Signature signature) {
    return trusted != null && signature.signers().stream().anyMatch(this::trusts);
  }

  private boolean trusts(CodeSigner signer) {
    try {
      Date when = signer.getTimestamp() == null ? new Date() : signer.getTimestamp().getTimestamp();
      X509Certificate own = (X509Certificate) signer.getSignerCertPath().getCertificates().get(0);
      if (trusted.getCertificateAlias(own) != null) {
        own.checkValidity(when);
        return true;
      }
      PKIXParameters parameters = new PKIXParameters(trusted);
      parameters.setRevocationEnabled(false);
      parameters.setDate(when);
      CertPathValidator.getInstance("PKIX").validate(withoutAnchor(signer), parameters);
      return true;
    } catch (GeneralSecurityException e) {
      return false;
    }
  }

  /** A path to validate must not hold the trusted certificate itself. */
  private CertPath withoutAnchor(CodeSigner signer) throws GeneralSecurityException {
    List<Certificate> path = new ArrayList<>();
    for (Certificate c : signer.getSignerCertPath().getCertificates()) {
      if (trusted.getCertificateAlias(c) == null) {
        path.add(c);
      }
    }
    return CertificateFactory.getInstance("X.509").generateCertPath(path);
  }
}
