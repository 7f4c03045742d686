@echo off
rem Starts everypart from its jar and passes all arguments on. It builds nothing.
setlocal
set "JAR=%~dp0..\target\everypart.jar"
if not exist "%JAR%" (
  echo everypart: %JAR% is not there; build it with: mvn -DskipTests package 1>&2
  exit /b 2
)
set "JAVA=java"
if defined JAVA_HOME if exist "%JAVA_HOME%\bin\java.exe" set "JAVA=%JAVA_HOME%\bin\java.exe"
if "%JAVA%"=="java" (
  where java >nul 2>nul || (
    echo everypart: Java is not there; install Java 17 or newer, or set JAVA_HOME 1>&2
    exit /b 2
  )
)
"%JAVA%" -jar "%JAR%" %*
exit /b %ERRORLEVEL%
