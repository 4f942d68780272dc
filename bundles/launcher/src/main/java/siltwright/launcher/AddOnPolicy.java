package siltwright.launcher;

import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
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
    if (!Files.exists(file)) {
      return USUAL;
    }
    Properties given = new Properties();
    try {
      String unsafe = Places.fault(file);
      if (unsafe != null) {
        throw new LaunchException("policy " + file + " is not safe: " + unsafe);
      }
      try (Reader text = Files.newBufferedReader(file)) {
        given.load(text);
      }
    } catch (IOException | IllegalArgumentException e) {
      throw new LaunchException("policy " + file + " cannot be read: " + e.getMessage(), e);
    }
    for (String key : given.stringPropertyNames()) {
      if (!KEYS.contains(key)) {
        // the value is not repeated: it may be a password
        throw new LaunchException(
            file + ": found key " + key + ", expected one of " + String.join(", ", KEYS));
      }
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

  private static LaunchException fault(Path file, String key, Properties given, String expected) {
    return new LaunchException(
        file + ", " + key + ": found " + given.getProperty(key) + ", expected " + expected);
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
    Path store = file.resolveSibling(given.getProperty("trusted").strip());
    String password = given.getProperty("trusted-password");
    try {
      String unsafe = Places.fault(store);
      if (unsafe != null) {
        throw fault(file, "trusted", given, "a key store that is safe: " + unsafe);
      }
      return KeyStore.getInstance(store.toFile(), password == null ? null : password.toCharArray());
    } catch (IOException | GeneralSecurityException e) {
      throw fault(file, "trusted", given, "a key store that can be read (" + e.getMessage() + ")");
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
